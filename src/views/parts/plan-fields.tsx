import type { Purpose } from "#domain/aim/aim.ts";
import { ARRANGEMENT_LABELS } from "#domain/plan/arrangement.ts";
import { FIGURE_UNITS, type FigureName } from "#domain/plan/figure-units.ts";
import { FILE_FORMS } from "#domain/plan/file-form.ts";
import { GLASSES } from "#domain/plan/glass.ts";
import { JOB_LABELS } from "#domain/plan/job-input.ts";
import { ChoiceField, type FormState, TextField } from "./field.tsx";

/** What each field of a plan is called, in the order of the form. */
export const PLAN_LABELS: Readonly<Record<string, string>> = { ...JOB_LABELS, ...ARRANGEMENT_LABELS };

/** Everything a plan is worked out from: what is captured, with what, in which light, and what it costs. */
export function PlanFields({ form, purposes }: { form: FormState; purposes: readonly Purpose[] }) {
  const of = (name: string) => ({ form, name, label: PLAN_LABELS[name] ?? name });
  const figure = (name: FigureName) => ({
    ...of(name),
    unit: FIGURE_UNITS[name],
    inputMode: "decimal" as const,
    width: "narrow" as const,
    most: 12,
  });
  return (
    <>
      <fieldset class="record-group">
        <legend>What is captured</legend>
        <p class="record-note soft">Leave number and size empty to plan for every print on the recapture list.</p>
        <div class="field-grid">
          <TextField {...of("objectNumber")} most={100} />
          <ChoiceField {...of("purpose")} label="Purpose" choices={purposes.map(({ key, name }) => ({ value: key, label: name }))} />
          <TextField {...figure("printWidthMm")} />
          <TextField {...figure("printHeightMm")} />
          <TextField {...figure("marginMm")} hint="On every side; 5 where left empty" />
          <TextField {...figure("curlMm")} hint="How high it rises off the table" />
        </div>
      </fieldset>
      <FoldedGroup
        title="With a camera"
        form={form}
        note="Looking straight down. The sensor's size and the pixels stand in the camera's data sheet."
        fields={[
          figure("sensorWidthMm"),
          figure("sensorHeightMm"),
          figure("sensorWidthPx"),
          figure("sensorHeightPx"),
          { ...figure("focalLengthMm"), hint: "The real one, not that of another format" },
          { ...figure("fNumber"), hint: "The number after f/; empty: one is proposed" },
          { ...figure("lensDistanceMm"), hint: "Empty: as near as print and margin allow" },
          { ...figure("pupilMagnification"), hint: "1 where left empty" },
          { ...figure("fieldCurvatureMm"), hint: "None where left empty" },
        ]}
      />
      <FoldedGroup title="Or with a scanner" form={form} fields={[figure("scannerPpi"), figure("bedWidthMm"), figure("bedHeightMm")]} />
      <FoldedGroup
        title="Light, glass and file"
        form={form}
        fields={[
          { ...of("lampCount"), none: "Not planned", choices: LAMPS },
          { ...figure("lampElevationDegrees"), hint: "0 is level with the print" },
          figure("lampDistanceMm"),
          figure("lampWidthMm"),
          { ...figure("lux"), hint: "Measured where the print lies" },
          { ...figure("ev100"), hint: "In place of lux: an incident meter at ISO 100" },
          { ...figure("sensitivityIso"), hint: "100 where left empty" },
          { ...of("glass"), choices: Object.entries(GLASSES).map(([value, label]) => ({ value, label })) },
          { ...figure("glassPercent"), hint: "Both faces together, as its maker says; empty: worked out" },
          { ...of("bitsPerSample"), choices: BITS, width: "narrow" },
          { ...of("fileForm"), choices: Object.entries(FILE_FORMS).map(([value, label]) => ({ value, label })) },
        ]}
      />
      <FoldedGroup
        title="Time and cost"
        form={form}
        fields={[
          { ...figure("minutesPerPrint"), hint: "Empty: as the files of this set-up tell" },
          figure("minutesToSetUp"),
          figure("price"),
          figure("pricePerHour"),
          { ...of("currency"), width: "narrow", most: 3, hint: "Three letters, such as EUR" },
        ]}
      />
    </>
  );
}

type FieldOfGroup = Parameters<typeof TextField>[0] | Parameters<typeof ChoiceField>[0];

/** On a phone a title, so that what is captured comes first; a group with a field that was refused stays open. */
const FoldedGroup = ({ title, form, note, fields }: { title: string; form: FormState; note?: string; fields: readonly FieldOfGroup[] }) => (
  <details
    class="plan-fold"
    open
    data-fold-on-phone={form.refusals.some(({ about }) => fields.some(({ name }) => name === about)) ? undefined : ""}
  >
    <summary>{title}</summary>
    <fieldset class="record-group">
      <legend>{title}</legend>
      {note ? <p class="record-note soft">{note}</p> : null}
      <div class="field-grid">{fields.map((field) => ("choices" in field ? <ChoiceField {...field} /> : <TextField {...field} />))}</div>
    </fieldset>
  </details>
);

const LAMPS = [
  { value: "1", label: "One, at the left" },
  { value: "2", label: "Two, left and right" },
  { value: "4", label: "Four, towards the corners" },
];

const BITS = [
  { value: "16", label: "16" },
  { value: "8", label: "8" },
];
