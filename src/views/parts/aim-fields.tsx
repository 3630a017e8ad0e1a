import type { AimLimit } from "#domain/aim/aim.ts";
import { FIGURES_OF, type Figure, fieldOf, MEASURES_TO_ASK, senseOf } from "#domain/aim/typed-aim.ts";
import { MEASURE_NAMES, MEASURES, type MeasureName } from "#domain/measure/catalogue.ts";
import { type FormState, LongField, TextField } from "./field.tsx";

const FIGURE_LABELS: Readonly<Record<Figure, string>> = {
  requiredAtLeast: "Must be at least",
  requiredAtMost: "Must be at most",
  lowest: "Worth nothing from",
  best: "Good enough from",
  highest: "Worth nothing from",
  weight: "Weight",
};

/** What each field is called where a refusal names it. */
export const AIM_LABELS: Readonly<Record<string, string>> = {
  name: "Name",
  note: "What a master is for",
  asks: "What it asks",
  changeNote: "What you changed, and why",
  limits: "What it asks of each measure",
  ...Object.fromEntries(
    MEASURE_NAMES.flatMap((measure) =>
      FIGURES_OF.between.map((figure) => [fieldOf(measure, figure), `${MEASURES[measure].label}, ${FIGURE_LABELS[figure].toLowerCase()}`]),
    ),
  ),
};

/** Every field of a purpose: what the aim asks first, then what it could ask. */
export function AimFields({ form }: { form: FormState }) {
  const isAsked = (measure: MeasureName) =>
    (FIGURES_OF[senseIn(form, measure)] as readonly Figure[]).some((figure) => (form.typed[fieldOf(measure, figure)] ?? "").trim() !== "");
  const shown = MEASURE_NAMES.filter((measure) => MEASURES_TO_ASK.includes(measure) || isAsked(measure));
  const others = shown.filter((measure) => !isAsked(measure));
  return (
    <>
      <section class="card stack" aria-labelledby="purpose-fields">
        <h2 id="purpose-fields">The purpose</h2>
        <div class="field-grid">
          <TextField form={form} name="name" label="Name" isRequired most={60} />
          <TextField
            form={form}
            name="note"
            label="What a master is for"
            most={500}
            hint="Such as: Hung on a wall, up to half a metre wide."
          />
          <TextField
            form={form}
            name="asks"
            label="What it asks"
            isRequired
            most={120}
            hint="In a few words: Clean and fine enough to enlarge."
          />
        </div>
        <LongField form={form} name="changeNote" label="What you changed, and why" rows={2} most={1000} hint="Kept with this version." />
      </section>
      <section class="card stack" aria-labelledby="asked-fields" id="field-limits">
        <h2 id="asked-fields">What it asks of a capture</h2>
        <dl class="aim-words">
          <dt>Must be</dt>
          <dd>A capture that misses this cannot be master, however good it is otherwise. Empty: nothing is required.</dd>
          <dt>Worth nothing, good enough</dt>
          <dd>Between these two a capture counts more the better it is; beyond “good enough” it gains nothing more.</dd>
          <dt>Weight</dt>
          <dd>How much the measure counts beside the others: 4 counts twice as much as 2. With 0 it must only be met.</dd>
        </dl>
        {shown.filter(isAsked).map((measure) => (
          <MeasureFields form={form} measure={measure} />
        ))}
      </section>
      <details class="card aim-others">
        <summary>Measures it does not ask for ({others.length})</summary>
        <p class="small soft">Fill in a row, and the measure counts. Empty all fields of a row above, and it counts no more.</p>
        {others.map((measure) => (
          <MeasureFields form={form} measure={measure} />
        ))}
      </details>
    </>
  );
}

function MeasureFields({ form, measure }: { form: FormState; measure: MeasureName }) {
  const { label, unit, meaning } = MEASURES[measure];
  const sense = senseIn(form, measure);
  return (
    <fieldset class="aim-measure">
      <legend>{label}</legend>
      <p class="hint">
        {meaning} {SENSE_WORDS[sense]}
      </p>
      <input type="hidden" name={fieldOf(measure, "sense")} value={sense} />
      <div class="aim-figures">
        {FIGURES_OF[sense].map((figure) => (
          <TextField
            form={form}
            name={fieldOf(measure, figure)}
            label={figure === "highest" && sense === "between" ? "Worth nothing up from" : FIGURE_LABELS[figure]}
            inputMode="decimal"
            most={20}
            {...(figure !== "weight" && unit !== "" && { unit })}
          />
        ))}
      </div>
    </fieldset>
  );
}

const SENSE_WORDS: Readonly<Record<AimLimit["sense"], string>> = {
  "at-least": "More is better.",
  "at-most": "Less is better.",
  between: "Best in between.",
};

function senseIn(form: FormState, measure: MeasureName): AimLimit["sense"] {
  const typed = form.typed[fieldOf(measure, "sense")];
  return typed === "at-least" || typed === "at-most" || typed === "between" ? typed : senseOf(measure);
}
