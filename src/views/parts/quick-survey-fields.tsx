import type { DatedFinding } from "#domain/condition/finding.ts";
import { severityInWords, termInWords } from "#domain/condition/finding-in-words.ts";
import { findTerm } from "#domain/condition/terms.ts";
import { dateInWords } from "#domain/print/date.ts";
import { ChoiceField, type FormState, TextField } from "./field.tsx";
import { ACTIVITY_CHOICES, CHANGE_CHOICES, SIDE_CHOICES } from "./survey-fields.tsx";
import { levelChoices, TermChoice } from "./term-choice.tsx";
import { FoldedMeaning } from "./term-definitions.tsx";

/** An earlier finding in one line: the same, unless something else is said. */
export function QuickRejudged({ form, finding, index }: { form: FormState; finding: DatedFinding; index: number }) {
  const name = (field: string) => `rejudged.${index}.${field}`;
  const typed = { ...form.typed, [name("change")]: form.typed[name("change")] ?? "same" };
  const state = { ...form, typed };
  const term = findTerm(finding.term);
  return (
    <fieldset class="quick-finding">
      <legend>
        <span class="finding-number">{index + 1}</span> {termInWords(finding)}
      </legend>
      <p class="small soft">
        {dateInWords(finding.surveyedOn)}: {severityInWords(finding.severity)}
        {finding.note ? `. ${finding.note}` : ""}
      </p>
      <input type="hidden" name={name("findingId")} value={String(finding.id)} />
      <input type="hidden" name={name("note")} value={finding.note ?? ""} />
      <div class="field-grid">
        <ChoiceField form={state} name={name("change")} label="Now" choices={CHANGE_CHOICES} />
        <ChoiceField form={state} name={name("severity")} label="Level" choices={levelChoices(term)} />
        <ChoiceField form={state} name={name("activity")} label="Is it active?" choices={ACTIVITY_CHOICES} />
      </div>
      {term ? <FoldedMeaning term={term} /> : null}
    </fieldset>
  );
}

/** Something new in one line; the term is found by any part of its name. */
export function QuickFound({ form, index }: { form: FormState; index: number }) {
  const name = (field: string) => `found.${index}.${field}`;
  return (
    <fieldset class="quick-finding">
      <legend>New finding {index + 1}</legend>
      <TermChoice form={form} name={name} />
      <div class="field-grid">
        <ChoiceField form={form} name={name("activity")} label="Is it active?" choices={ACTIVITY_CHOICES} />
        <ChoiceField form={form} name={name("side")} label="Side" choices={SIDE_CHOICES} />
        <TextField form={form} name={name("note")} label="Note" most={2000} width="wide" />
      </div>
    </fieldset>
  );
}

/** The words by which the summary of refusals calls the fields. */
export function quickLabels(standing: readonly DatedFinding[], rowCount: number): Record<string, string> {
  const again = standing.flatMap((finding, index) => [
    [`rejudged.${index}.change`, termInWords(finding)],
    [`rejudged.${index}.severity`, `${termInWords(finding)}, level`],
  ]);
  const anew = Array.from({ length: rowCount }, (_, index) => [
    [`found.${index}.term`, `New finding ${index + 1}, what it is`],
    [`found.${index}.severity`, `New finding ${index + 1}, level`],
  ]).flat();
  return Object.fromEntries([...again, ...anew, ["lookedAtBy", "Looked at by"]]);
}
