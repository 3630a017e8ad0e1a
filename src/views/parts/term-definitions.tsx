import { levelOf, SEVERITIES, SEVERITY_WORDS } from "#domain/condition/severity.ts";
import { TERM_GROUPS, type Term, type TermGroup } from "#domain/condition/term.ts";

const GROUP_LABELS: Readonly<Record<TermGroup, string>> = {
  image: "The image itself",
  stain: "Stains and deposits",
  layer: "The layer that carries the image",
  support: "Sheet, plate, glass and mount",
  living: "Mould and animals",
  instant: "Instant prints",
  making: "Faults of making",
  hands: "What people did to it",
  feature: "Features, no damage",
};

export type TermsOfGroup = { readonly label: string; readonly terms: readonly Term[] };

export const inGroups = (terms: readonly Term[]): TermsOfGroup[] =>
  TERM_GROUPS.map((group) => ({ label: GROUP_LABELS[group], terms: terms.filter((term) => term.group === group) })).filter(
    (group) => group.terms.length > 0,
  );

/** What every offered term means, by group, closed until somebody looks one up; `term-meaning.js` reads it from here. */
export const TermDefinitions = ({ terms }: { terms: readonly Term[] }) => (
  <section class="card term-definitions" aria-labelledby="terms-title">
    <h2 id="terms-title">What the terms mean</h2>
    <p class="small soft">
      The definitions follow the sources named with them. The four levels of each term are our own: no published scale of levels for
      photographs was found.
    </p>
    {inGroups(terms).map((group) => (
      <details>
        <summary>
          {group.label} ({group.terms.length})
        </summary>
        <dl>
          {group.terms.map((term) => (
            <div data-term-names={[term.name, ...term.alsoCalled].join("|")}>
              <dt id={`term-${term.id}`}>{term.name}</dt>
              <dd>
                <TermMeaning term={term} />
              </dd>
            </div>
          ))}
        </dl>
      </details>
    ))}
  </section>
);

/** What an earlier finding's term means, for who wants to see it. */
export const FoldedMeaning = ({ term }: { term: Term }) => (
  <details>
    <summary>What {term.name} means</summary>
    <TermMeaning term={term} />
  </details>
);

/** Definition, levels and source of one term. */
export const TermMeaning = ({ term }: { term: Term }) => (
  <div class="term-meaning">
    <p>
      {term.definition}
      {term.alsoCalled.length > 0 ? ` Also called: ${term.alsoCalled.join(", ")}.` : ""}
    </p>
    <ul class="term-levels">
      {SEVERITIES.filter((level) => level > 0).map((level) => (
        <li data-level={level}>{`${level} ${SEVERITY_WORDS[level]}: ${levelOf(term, level)}`}</li>
      ))}
    </ul>
    <p class="soft">Source: {term.sources.join("; ")}</p>
  </div>
);
