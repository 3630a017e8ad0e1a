import { EXTENT_WORDS, EXTENTS } from "#domain/condition/extent.ts";
import { ACTIVITY_WORDS, type DatedFinding } from "#domain/condition/finding.ts";
import { severityInWords, termInWords } from "#domain/condition/finding-in-words.ts";
import type { FindingPhotograph } from "#domain/condition/finding-photograph.ts";
import { findTerm } from "#domain/condition/terms.ts";
import { dateInWords } from "#domain/print/date.ts";
import { capital } from "#domain/sentence.ts";
import { type Choice, ChoiceField, type FormState, LongField, TextField } from "./field.tsx";
import { FindingPhotographs } from "./finding-photographs.tsx";
import { levelChoices, TermChoice } from "./term-choice.tsx";
import { FoldedMeaning } from "./term-definitions.tsx";

export const CHANGE_CHOICES: readonly Choice[] = [
  { value: "same", label: "The same" },
  { value: "worse", label: "Worse" },
  { value: "better", label: "Better" },
  { value: "gone", label: "Gone" },
  { value: "not-looked", label: "Not looked at this time" },
];

export const ACTIVITY_CHOICES: readonly Choice[] = [
  { value: "not-known", label: "Not known" },
  { value: "active", label: "Yes, it goes on" },
  { value: "stable", label: "No, it has stopped" },
];

export const SIDE_CHOICES: readonly Choice[] = [
  { value: "front", label: "Front" },
  { value: "back", label: "Back" },
];

const EXTENT_CHOICES: readonly Choice[] = EXTENTS.map((extent) => ({ value: extent, label: capital(EXTENT_WORDS[extent]) }));

/** How much it covers, and where it lies. */
const PlaceFields = ({ form, name }: { form: FormState; name: (field: string) => string }) => (
  <>
    <ChoiceField form={form} name={name("extent")} label="How much it covers" none="Not said" choices={EXTENT_CHOICES} />
    <LongField
      form={form}
      name={name("regions")}
      label="Places on that side, in mm"
      rows={1}
      most={12_000}
      hint="One place a line. Corners as mm from the left, a comma, mm from the top: two for a rectangle (12,30 52,48), more for an outline."
    />
  </>
);

/** The words by which the summary of refusals calls the fields, in the order of the form. */
export function surveyLabels(standing: readonly DatedFinding[], rowCount: number): Record<string, string> {
  const again = standing.flatMap((finding, index) => [
    [`rejudged.${index}.change`, `${termInWords(finding)}, what became of it`],
    [`rejudged.${index}.severity`, `${termInWords(finding)}, level`],
    [`rejudged.${index}.regions`, `${termInWords(finding)}, places`],
    [`rejudged.${index}.note`, `${termInWords(finding)}, note`],
  ]);
  const anew = Array.from({ length: rowCount }, (_, index) => [
    [`found.${index}.term`, `New finding ${index + 1}, what it is`],
    [`found.${index}.severity`, `New finding ${index + 1}, level`],
    [`found.${index}.regions`, `New finding ${index + 1}, places`],
    [`found.${index}.note`, `New finding ${index + 1}, note`],
  ]).flat();
  return Object.fromEntries([
    ...again,
    ...anew,
    ["surveyedOn", "Day"],
    ["lookedAtBy", "Looked at by"],
    ["grade", "Grade"],
    ["note", "Note on the whole"],
  ]);
}

/** Who looks; proposed as the last look named it, in `form.typed`. */
export const LookedAtBy = ({ form }: { form: FormState }) => (
  <TextField
    form={form}
    name="lookedAtBy"
    label="Looked at by"
    most={120}
    hint="The person who looks. Proposed from the look kept last; empty means that it is not said."
  />
);

/** An earlier finding, to be judged again. */
export function RejudgedFields(props: {
  form: FormState;
  finding: DatedFinding;
  index: number;
  /** of it, from every look */
  photographs: readonly FindingPhotograph[];
}) {
  const { form, finding, index, photographs } = props;
  const name = (field: string) => `rejudged.${index}.${field}`;
  const term = findTerm(finding.term);
  const activity = finding.activity === "not-known" ? "" : `, ${ACTIVITY_WORDS[finding.activity]}`;
  return (
    <fieldset class="finding-fields" data-side={finding.side}>
      <legend>{termInWords(finding)}</legend>
      <input type="hidden" name={name("findingId")} value={String(finding.id)} />
      <p>
        On {dateInWords(finding.surveyedOn)}: {severityInWords(finding.severity)}
        {activity}.{finding.note ? ` ${finding.note}` : ""}
      </p>
      <div class="field-grid">
        <ChoiceField form={form} name={name("change")} label="What became of it" none="Choose" choices={CHANGE_CHOICES} isRequired />
        <ChoiceField form={form} name={name("severity")} label="Level now" choices={levelChoices(term)} />
        <ChoiceField form={form} name={name("activity")} label="Is it active?" choices={ACTIVITY_CHOICES} />
        <PlaceFields form={form} name={name} />
        <LongField form={form} name={name("note")} label="Note: what it looks like" rows={2} most={2000} width="wide" />
      </div>
      <FindingPhotographs photographs={photographs} of={termInWords(finding)} />
      <p class="small">
        <a href={`/findings/${finding.id}/photographs`} target="_blank" rel="noopener">
          {photographs.length === 0 ? "Add a photograph" : "Add or take out photographs"}
          <span class="visually-hidden"> of {termInWords(finding)}</span>
        </a>{" "}
        (opens beside this form, which stays as it is)
      </p>
      {term ? <FoldedMeaning term={term} /> : null}
    </fieldset>
  );
}

/** Something not found before. A row that is left empty counts as nothing. */
export function FoundFields({ form, index }: { form: FormState; index: number }) {
  const name = (field: string) => `found.${index}.${field}`;
  return (
    <fieldset class="finding-fields">
      <legend>New finding {index + 1}</legend>
      <TermChoice form={form} name={name} />
      <div class="field-grid">
        <ChoiceField form={form} name={name("side")} label="Side" choices={SIDE_CHOICES} />
        <ChoiceField form={form} name={name("activity")} label="Is it active?" choices={ACTIVITY_CHOICES} />
        <PlaceFields form={form} name={name} />
        <LongField form={form} name={name("note")} label="Note: what it looks like" rows={2} most={2000} width="wide" />
      </div>
    </fieldset>
  );
}
