import { METHOD_LABELS } from "#domain/capture/method.ts";
import type { SetUp } from "#domain/capture/set-up.ts";
import type { FormState } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";
import { SET_UP_LABELS, SetUpFields } from "../parts/set-up-fields.tsx";

export type SetUpsPageProps = { collectionName: string; setUps: readonly SetUp[]; form: FormState; done?: string };

/** The capture arrangements that captures can name, and a form for one more. */
export const SetUpsPage = (props: SetUpsPageProps) => (
  <Layout title="Set-ups" section="add" collectionName={props.collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <h1>Set-ups</h1>
          <p>How captures are made: device, light, glass and settings, described once and named by every capture made that way.</p>
        </div>
        <p class="actions">
          <a class="button button-quiet" href="/methods?by=set-up">
            Compare them
          </a>
          <a class="button button-quiet" href="/plan">
            Plan a capture
          </a>
        </p>
      </header>
      <DoneNotice done={props.done} />
      <div class="beside">
        <div class="stack">
          {props.setUps.length === 0 ? (
            <p class="card">
              No set-up has been described yet. Describe one in the form: what lies where, and with which light. Captures then name it, and
              it can be checked on a target and compared with others.
            </p>
          ) : (
            props.setUps.map((setUp) => <SetUpCard setUp={setUp} />)
          )}
        </div>
        <NewSetUp form={props.form} />
      </div>
    </div>
  </Layout>
);

function SetUpCard({ setUp }: { setUp: SetUp }) {
  const facts: [string, string | null][] = [
    ["Method", METHOD_LABELS[setUp.method]],
    ["Device", setUp.device],
    ["Lens", setUp.lens],
    ["Light", setUp.light],
    ["Glass", setUp.glass],
    ["Settings", setUp.settings],
    ["Price", setUp.priceAmount === null ? null : `${setUp.priceAmount} ${setUp.priceCurrency ?? ""}`],
    ["Note", setUp.note],
  ];
  return (
    <section class="card" id={`set-up-${setUp.id}`} aria-labelledby={`set-up-${setUp.id}-name`}>
      <h2 id={`set-up-${setUp.id}-name`}>{setUp.name}</h2>
      <dl class="facts">
        {facts
          .filter(([, value]) => value !== null)
          .map(([name, value]) => (
            <>
              <dt>{name}</dt>
              <dd class="as-typed">{value}</dd>
            </>
          ))}
      </dl>
      <p class="actions">
        <a href={`/set-ups/${setUp.id}/edit`}>
          Edit<span class="visually-hidden"> {setUp.name}</span>
        </a>
        <a href={`/set-ups/${setUp.id}/checks`}>
          Target checks<span class="visually-hidden"> of {setUp.name}</span>
        </a>
        <a href={`/plan?setUp=${setUp.id}`}>
          Plan with it<span class="visually-hidden">: {setUp.name}</span>
        </a>
      </p>
    </section>
  );
}

const NewSetUp = ({ form }: { form: FormState }) => (
  <form class="card" method="post" action="/set-ups" novalidate>
    <h2>New set-up</h2>
    <RefusalSummary refusals={form.refusals} labels={SET_UP_LABELS} />
    <SetUpFields form={form} />
    <button class="button" type="submit">
      Add the set-up
    </button>
  </form>
);
