import type { AimLimit } from "#domain/aim/aim.ts";
import { TARGET_MEASURE_NAMES } from "#domain/aim/target-measures.ts";
import { dateInWords } from "#domain/print/date.ts";
import { chartedChecks } from "#domain/target/charted-checks.ts";
import { CHECK_WORDS } from "#domain/target/check-input.ts";
import { CheckResults, type ShownTargetCheck } from "../parts/check-results.tsx";
import { ControlChart } from "../parts/control-chart.tsx";
import type { FormState } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { NewCheck } from "../parts/new-check.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

export type ListedCheck = Pick<ShownTargetCheck, "id" | "takenOn" | "targetName" | "fileName" | "note"> & {
  readonly state: "read" | "waiting" | "sheet";
};

export type TargetChecksPageProps = {
  collectionName: string;
  setUp: { readonly id: number; readonly name: string };
  /** the oldest first */
  checks: readonly ShownTargetCheck[];
  /** every picture that is kept, the oldest first, those that wait for their corners too */
  all: readonly ListedCheck[];
  /** what holds now: the latest check, with evenness from the latest even sheet */
  latest: ShownTargetCheck | null;
  /** what preservation masters ask */
  limits: readonly AimLimit[];
  form: FormState;
  done?: string;
};

const CHECK_LABELS = Object.fromEntries(Object.entries(CHECK_WORDS).map(([name, { label }]) => [name, label]));
const NOT_KEPT = "No check was kept. Choose the files anew: a browser does not keep them.";

/** What a set-up proved on test targets, from check to check, and the form for one more. */
export function TargetChecksPage(props: TargetChecksPageProps) {
  const { setUp, checks, all, latest, limits, form } = props;
  return (
    <Layout title={`Target checks of ${setUp.name}`} section="add" collectionName={props.collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <p>
              <a href={`/set-ups#set-up-${setUp.id}`}>{setUp.name}</a>
            </p>
            <h1>Target checks</h1>
            <p>A test target of known values proves what a set-up does to tones, colours and detail; no print can.</p>
          </div>
        </header>
        <DoneNotice done={props.done} />
        <RefusalSummary refusals={form.refusals} labels={CHECK_LABELS} title={NOT_KEPT} />
        {latest ? <CheckResults check={latest} limits={limits} /> : null}
        {latest && !latest.isEvenSheet ? null : (
          <p class="card">This set-up was not checked on a target yet, so what only a target proves stays unknown for its captures.</p>
        )}
        {checks.length > 1 ? <Charts checks={checks} limits={limits} /> : null}
        {all.length > 0 ? <AllChecks all={all} /> : null}
        <NewCheck setUpId={setUp.id} form={form} />
      </div>
    </Layout>
  );
}

function Charts({ checks, limits }: { checks: readonly ShownTargetCheck[]; limits: readonly AimLimit[] }) {
  const shown = TARGET_MEASURE_NAMES.map((measure) => ({
    measure,
    limit: limits.find((limit) => limit.measure === measure),
    ...chartedChecks(measure, checks),
  })).filter(({ values }) => values.length > 1);
  return (
    <section class="card" aria-labelledby="charts-title">
      <h2 id="charts-title">From check to check</h2>
      <p class="small soft">
        Full line: what preservation masters are asked. Dashed: what the set-up's own past lets one expect (NIST/SEMATECH e-Handbook,
        6.3.2.2). Only checks on one target are set beside each other.
      </p>
      <div class="control-charts">
        {shown.map(({ measure, limit, values, bound, leftOut }) => (
          <ControlChart
            measure={measure}
            values={values}
            bound={bound}
            leftOut={leftOut}
            most={limit?.requiredAtMost ?? null}
            least={limit?.requiredAtLeast ?? null}
          />
        ))}
      </div>
    </section>
  );
}

const AllChecks = ({ all }: { all: readonly ListedCheck[] }) => (
  <section class="card" aria-labelledby="all-title">
    <h2 id="all-title">All checks</h2>
    <ul class="check-list">
      {all.toReversed().map(({ id, takenOn, targetName, fileName, note, state }) => (
        <li>
          <p>
            {dateInWords(takenOn)}: {targetName}, {fileName}
            {note ? `. ${note}` : ""}
            {state === "waiting" ? <strong class="second-line">Not read: the target was not found. Set its corners.</strong> : null}
          </p>
          <div class="actions">
            {state === "sheet" ? null : (
              <a href={`/target-checks/${id}/outline`}>
                Set its corners<span class="visually-hidden"> in {fileName}</span>
              </a>
            )}
            <form method="post" action={`/target-checks/${id}/take-out`}>
              <button class="button button-quiet" type="submit">
                Take out<span class="visually-hidden"> the check of {dateInWords(takenOn)}</span>
              </button>
            </form>
          </div>
        </li>
      ))}
    </ul>
  </section>
);
