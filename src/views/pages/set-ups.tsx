import { METHOD_LABELS } from "#domain/capture/method.ts";
import type { SetUp } from "#domain/capture/set-up.ts";
import { methodChoices } from "../parts/capture-fields.tsx";
import { ChoiceField, type FormState, LongField, TextField } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

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
      </header>
      <DoneNotice done={props.done} />
      <div class="beside">
        <div class="stack">
          {props.setUps.length === 0 ? (
            <p class="card">No set-up has been described yet.</p>
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
    </section>
  );
}

const SET_UP_LABELS: Readonly<Record<string, string>> = {
  name: "Name",
  method: "Method",
  device: "Device",
  lens: "Lens",
  light: "Light",
  glass: "Glass",
  settings: "Settings",
  priceAmount: "Price",
  priceCurrency: "Currency",
  note: "Note",
};

const NewSetUp = ({ form }: { form: FormState }) => (
  <form class="card" method="post" action="/set-ups" novalidate>
    <h2>New set-up</h2>
    <RefusalSummary refusals={form.refusals} labels={SET_UP_LABELS} />
    <TextField form={form} name="name" label="Name" isRequired most={120} hint="One you will know again: Copy stand by the window" />
    <ChoiceField form={form} name="method" label="Method" isRequired none="Choose one" choices={methodChoices()} />
    <TextField form={form} name="device" label="Device" most={200} />
    <TextField form={form} name="lens" label="Lens" most={200} />
    <LongField form={form} name="light" label="Light" rows={2} most={500} hint="Which lamps, from where, how far; polarisers" />
    <TextField form={form} name="glass" label="Glass" most={200} hint="None, or what lies between print and lens" />
    <LongField form={form} name="settings" label="Settings" rows={2} most={2000} />
    <TextField form={form} name="priceAmount" label="Price" inputMode="decimal" most={12} />
    <TextField form={form} name="priceCurrency" label="Currency" most={3} hint="Three letters, such as EUR" />
    <LongField form={form} name="note" label="Note" rows={2} most={2000} />
    <button class="button" type="submit">
      Add the set-up
    </button>
  </form>
);
