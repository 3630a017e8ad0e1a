import { levelOf, SEVERITIES, SEVERITY_MEANINGS, SEVERITY_WORDS } from "#domain/condition/severity.ts";
import type { Term } from "#domain/condition/term.ts";
import { termNamed } from "#domain/condition/terms.ts";
import { type Choice, ChoiceField, type FormState, TextField } from "./field.tsx";
import { TermMeaning } from "./term-definitions.tsx";

/**
 * What was found and how far it goes: the term is found by any part of its name, and its meaning with its four levels stands beside
 * it. `term-meaning.js` shows them as soon as a term is typed; without it they are there whenever the form comes back.
 * @param name how a field of this finding is called in the form
 */
export function TermChoice({ form, name }: { form: FormState; name: (field: string) => string }) {
  const typed = form.typed[name("term")] ?? "";
  const term = termNamed(typed);
  const shown = { ...form, typed: { ...form.typed, [name("term")]: term?.name ?? typed } };
  return (
    <div class="term-choice" data-term-choice>
      <div class="term-choice-fields">
        <TextField form={shown} name={name("term")} label="What it is" listId="term-names" most={200} />
        <ChoiceField form={form} name={name("severity")} label="Level" none="Choose" choices={levelChoices(term)} />
      </div>
      <div class="term-beside" data-term-beside aria-live="polite">
        {term ? (
          <TermMeaning term={term} />
        ) : (
          <p class="small soft">
            Type any part of the name; the list under the field holds the rest. What each term means stands at the foot of the page.
          </p>
        )}
      </div>
    </div>
  );
}

/** Levels as they look for the term, or as they are meant in general where none is chosen yet. */
export const levelChoices = (term: Term | null): Choice[] =>
  SEVERITIES.map((level) => ({
    value: String(level),
    label: `${level} ${SEVERITY_WORDS[level]}: ${term ? levelOf(term, level) : SEVERITY_MEANINGS[level]}`,
  }));

/** The names that can be typed, for the browser to offer. */
export const TermNames = ({ terms }: { terms: readonly Term[] }) => (
  <datalist id="term-names">
    {terms.map((term) => (
      <option value={term.name}>{term.alsoCalled.join(", ")}</option>
    ))}
  </datalist>
);
