import type { Print } from "#domain/print/print.ts";
import { type Display, GLAZINGS } from "#domain/storage/display.ts";
import type { LightBudget, LightDose } from "#domain/storage/light-budget.ts";
import { DoseNotice } from "../parts/dose-notice.tsx";
import { ChoiceField, type FormState, LongField, TextField } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

export type PrintDisplaysPageProps = {
  collectionName: string;
  print: Print;
  displays: readonly Display[];
  budget: LightBudget;
  dose: LightDose;
  today: string;
  form: FormState;
  done?: string;
};

const LABELS: Readonly<Record<string, string>> = {
  startsOn: "First day",
  endsOn: "Last day",
  lux: "Light on the print",
  hoursPerDay: "Hours a day",
  glazing: "In front of it",
  note: "Note",
};

/** The light one print has had, and the form for more of it. */
export const PrintDisplaysPage = ({ collectionName, print, displays, budget, dose, today, form, done }: PrintDisplaysPageProps) => (
  <Layout title={`Display of ${print.objectNumber}`} section="prints" collectionName={collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <p class="object-number">
            <a href={`/prints/${print.id}`}>{print.objectNumber}</a>
          </p>
          <h1>Days on display</h1>
          <p>{print.title}</p>
        </div>
        <p class="actions">
          <a href="/displays">All prints that were on display</a>
        </p>
      </header>
      <DoneNotice done={done} />
      <RefusalSummary refusals={form.refusals} labels={LABELS} />
      <DoseNotice dose={dose} budget={budget} isLogged={displays.length > 0} />
      {displays.length > 0 ? <DisplayTable print={print} displays={displays} today={today} /> : null}
      <form class="card" method="post" action={`/prints/${print.id}/displays`} novalidate>
        <h2>Log days on display</h2>
        <div class="field-grid">
          <TextField form={form} name="startsOn" label={LABELS.startsOn ?? ""} isRequired type="date" />
          <TextField form={form} name="endsOn" label={LABELS.endsOn ?? ""} type="date" hint="Empty while it is on display" />
          <TextField
            form={form}
            name="lux"
            label={LABELS.lux ?? ""}
            isRequired
            inputMode="decimal"
            unit="lux"
            most={20}
            hint="Measured at the print"
          />
          <TextField form={form} name="hoursPerDay" label={LABELS.hoursPerDay ?? ""} isRequired inputMode="decimal" unit="h" most={20} />
          <ChoiceField
            form={form}
            name="glazing"
            label={LABELS.glazing ?? ""}
            choices={Object.entries(GLAZINGS).map(([value, label]) => ({ value, label }))}
          />
          <LongField form={form} name="note" label={LABELS.note ?? ""} rows={2} most={1000} width="wide" />
        </div>
        <button class="button" type="submit">
          Log the days
        </button>
      </form>
    </div>
  </Layout>
);

const DisplayTable = ({ print, displays, today }: Pick<PrintDisplaysPageProps, "print" | "displays" | "today">) => (
  <div class="table-frame">
    <table class="table table-stacked">
      <caption>Logged so far</caption>
      <thead>
        <tr>
          <th scope="col">Days</th>
          <th scope="col" class="number">
            Lux
          </th>
          <th scope="col" class="number">
            Hours a day
          </th>
          <th scope="col">In front</th>
          <th scope="col">Note</th>
          <th scope="col">
            <span class="visually-hidden">What to do</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {displays.map((display) => (
          <tr>
            <th scope="row">
              {display.startsOn} to {display.endsOn ?? "now"}
            </th>
            <td class="number" data-label="Lux">
              {display.lux}
            </td>
            <td class="number" data-label="Hours a day">
              {display.hoursPerDay}
            </td>
            <td data-label="In front">{GLAZINGS[display.glazing]}</td>
            <td class="as-typed" data-label="Note">
              {display.note}
            </td>
            <td>
              <div class="actions">
                {display.endsOn === null ? <Act print={print} display={display} verb="end" words={`Taken down on ${today}`} /> : null}
                <Act print={print} display={display} verb="take-back" words="Take out again" />
              </div>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);

const Act = ({ print, display, verb, words }: { print: Print; display: Display; verb: "end" | "take-back"; words: string }) => (
  <form method="post" action={`/prints/${print.id}/displays/${display.id}/${verb}`}>
    <button class="button button-quiet button-small" type="submit">
      {words}
      <span class="visually-hidden"> (from {display.startsOn})</span>
    </button>
  </form>
);
