import { measureInWords, valueInWords } from "../aim/measure-words.ts";
import { capital } from "../sentence.ts";
import { LEVEL, type PairedMeasure, type WaysCompared } from "./compare-ways.ts";

export type NamedWays = { readonly first: string; readonly second: string };

/** What the pairs say, in sentences; what they do not say has a list of its own. */
export function verdictInWords({ pairs, measures, meets, meetsChance }: WaysCompared, ways: NamedWays): string[] {
  if (pairs === 0) return [`No print was captured both by ${ways.first} and by ${ways.second}, so nothing can be compared.`];
  const told = (verdict: PairedMeasure["verdict"]) => measures.filter((each) => each.verdict === verdict);
  const sentences = [
    better(ways.first, told("first")),
    better(ways.second, told("second")),
    ...(told("first").length + told("second").length === 0 ? ["Nothing that was measured tells the two ways apart."] : []),
    meetsInWords(meets, meetsChance, ways, pairs),
  ];
  return sentences.filter((sentence) => sentence !== null);
}

/** Where the data end. */
export function whatTheDataCannotTell({ pairs, measures }: WaysCompared, needTarget: readonly string[]): string[] {
  const silent = measures.filter(({ chance }) => chance === null);
  const few = silent.filter(({ interval }) => interval === null).map(({ measure }) => measureInWords(measure));
  const alike = silent.filter(({ interval }) => interval !== null).map(({ measure }) => measureInWords(measure));
  const open = measures
    .filter(({ chance, verdict }) => chance !== null && verdict === "not told")
    .map(({ measure }) => measureInWords(measure));
  const bounds = measures.filter(({ hasBounds }) => hasBounds).map(({ measure }) => measureInWords(measure));
  return [
    ...(open.length > 0
      ? [`Whether they differ in ${list(open)}: what is seen may be chance. That is not a proof that they are alike.`]
      : []),
    ...(few.length > 0 && pairs > 0
      ? [`Anything about ${list(few)}: fewer than six prints show it both ways, and no result of so few could be told from chance.`]
      : []),
    ...(alike.length > 0
      ? [`Whether anything is behind ${list(alike)}: nearly all pairs read the same, and the few others could not be told from chance.`]
      : []),
    ...(bounds.length > 0
      ? [
          `How large the difference truly is in ${list(bounds)}, where some values are only bounds; and should those hide more by one way than by the other, which is better.`,
        ]
      : []),
    ...(needTarget.length > 0 ? [`What only a target taken with the set-up proves: ${needTarget.map(measureInWords).join("; ")}.`] : []),
    "Why: prints were not given to the two ways by chance, so kind of print, person and day may stand behind a difference.",
  ];
}

function better(way: string, measures: readonly PairedMeasure[]): string | null {
  if (measures.length === 0) return null;
  const parts = measures
    .toSorted((a, b) => Math.abs(b.gain?.middle ?? 0) - Math.abs(a.gain?.middle ?? 0))
    .map(({ measure, difference, pairs, better: first, worse: second }) => {
      // a yes less a no has no size
      const by = measure === "lossless" ? "" : `by ${valueInWords(measure, Math.abs(difference))} as the median, `;
      return `${measureInWords(measure)} (${by}on ${Math.max(first, second)} of ${pairs})`;
    });
  return `${capital(way)} is better in ${list(parts)}.`;
}

function meetsInWords(
  { both, firstOnly, secondOnly, neither }: WaysCompared["meets"],
  chance: number | null,
  ways: NamedWays,
  pairs: number,
): string {
  const counts = `Of ${pairs} ${pairs === 1 ? "print" : "prints"} captured both ways, ${both} met every requirement both ways at the first try, ${firstOnly} only by ${ways.first}, ${secondOnly} only by ${ways.second}, ${neither} by neither.`;
  if (firstOnly + secondOnly === 0) return counts;
  const certain = chance !== null && chance <= LEVEL;
  return `${counts} ${certain ? "That is more than chance." : "That cannot be told from chance."}`;
}

function list(words: readonly string[]): string {
  const last = words.at(-1) ?? "";
  return words.length < 2 ? last : `${words.slice(0, -1).join(", ")} and ${last}`;
}
