import type { Aim } from "#domain/aim/aim.ts";
import { counted } from "../format/counted.ts";
import { ByEye, type ShownAgreement } from "../parts/agreement.tsx";
import { AimTable } from "../parts/aim-table.tsx";
import { type FormState, TextField } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { Moment } from "../parts/moment.tsx";
import { DoneNotice, Notice } from "../parts/notice.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";
import { type ShownPurpose, standingInWords } from "./purposes.tsx";

export type ShownVersion = {
  readonly version: number;
  readonly name: string;
  readonly note: string | null;
  readonly who: string | null;
  readonly createdAt: string;
};

export type PurposePageProps = {
  collectionName: string;
  purpose: ShownPurpose;
  /** the version shown, which may be an earlier one */
  aim: Aim;
  versions: readonly ShownVersion[];
  /** how often the eye found the same as the rule */
  agreement: ShownAgreement;
  /** prints whose choice was made by an earlier version, or not yet */
  toRenew: number;
  copy: FormState;
  done?: string;
};

/** One purpose: what its aim asks and why, how it stands, and every version there was. */
export function PurposePage({ collectionName, purpose, aim, versions, agreement, toRenew, copy, done }: PurposePageProps) {
  const isCurrent = aim.version === purpose.version;
  const address = `/purposes/${purpose.key}`;
  return (
    <Layout title={purpose.name} section={null} collectionName={collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <p>
              <a href="/purposes">Purposes</a>
            </p>
            <h1>{purpose.name}</h1>
            {purpose.note ? <p>{purpose.note}</p> : null}
          </div>
          {purpose.isReadyMade || !isCurrent ? null : (
            <p class="actions">
              <a class="button" href={`${address}/edit`}>
                Change what it asks
              </a>
            </p>
          )}
        </header>
        <DoneNotice done={done} />
        <RefusalSummary refusals={copy.refusals} labels={{ name: "Name of the copy" }} />
        {isCurrent ? null : (
          <Notice level="notice" title={`Version ${aim.version}, as it was`}>
            <p>
              Choices that were made by it point at it. <a href={address}>The version that holds now</a> is {purpose.version}.
            </p>
          </Notice>
        )}
        {purpose.isAside ? (
          <Notice level="notice" title="Set aside">
            <p>Nothing is chosen for this purpose any more. What was chosen is kept.</p>
            <form method="post" action={`${address}/take-up`}>
              <button class="button button-quiet button-small" type="submit">
                Take it up again
              </button>
            </form>
          </Notice>
        ) : null}
        {isCurrent && toRenew > 0 && !purpose.isAside ? (
          <Notice level="notice" title="Not chosen by this version yet">
            <p>
              {counted(toRenew, "print is", "prints are")} still to be chosen for. It goes on by itself for a while after a change; what a
              person chose stands.
            </p>
            <form method="post" action="/masters/renew">
              <button class="button button-quiet button-small" type="submit">
                Choose them now
              </button>
            </form>
          </Notice>
        ) : null}
        {isCurrent ? (
          <section class="card" aria-labelledby="standing-title">
            <h2 id="standing-title">How it stands</h2>
            <p>{standingInWords(purpose)}</p>
          </section>
        ) : null}
        {isCurrent && !purpose.isAside ? <ByEye purposeKey={purpose.key} agreement={agreement} /> : null}
        <section aria-labelledby="aim-title" class="stack">
          <h2 id="aim-title">{isCurrent ? "What it asks" : `What version ${aim.version} asked`}</h2>
          <p>
            {aim.name}. <span class="soft">From: {aim.edition}.</span>
          </p>
          <AimTable limits={aim.limits} />
          <p class="small">
            <a href={isCurrent ? `${address}/aim.json` : `${address}/aim.json?version=${aim.version}`}>This aim as a file (JSON)</a>
          </p>
        </section>
        <div class="beside">
          <section class="card" aria-labelledby="versions-title">
            <h2 id="versions-title">Versions</h2>
            <ol class="versions" reversed>
              {versions.map((version) => (
                <li aria-current={version.version === aim.version ? "true" : undefined}>
                  <a href={`${address}/versions/${version.version}`}>Version {version.version}</a>: {version.name}
                  {version.note ? <span class="second-line">{version.note}</span> : null}
                  <span class="second-line">
                    <Moment at={version.createdAt} />, {version.who ?? "with the program"}
                  </span>
                </li>
              ))}
            </ol>
          </section>
          <div class="stack">
            {isCurrent ? (
              <form class="card stack" method="post" action={`${address}/copy`} novalidate>
                <h2>Copy it</h2>
                <TextField form={copy} name="name" label="Name of the copy" isRequired most={60} hint="Such as: Exhibition prints" />
                <button class="button" type="submit">
                  Copy under this name
                </button>
              </form>
            ) : null}
            {purpose.isReadyMade || purpose.isAside ? null : (
              <form class="card stack" method="post" action={`${address}/aside`}>
                <h2>Set it aside</h2>
                <p class="small">Nothing is chosen for it any more, and screens leave it out. It can be taken up again.</p>
                <button class="button button-quiet" type="submit">
                  Set aside
                </button>
              </form>
            )}
          </div>
        </div>
      </div>
    </Layout>
  );
}
