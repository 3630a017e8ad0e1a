import { readInWords, spreadInWords } from "#domain/aim/measure-words.ts";
import { isPresent, type Present, type Reading, type Reliability } from "#domain/measure/reading.ts";

const RELIABILITY_WORDS: Readonly<Record<Reliability, string>> = { firm: "firm", fair: "fair", weak: "weak, a hint only" };

/** Said once beside the readings of a page. */
export const PlusMinusNote = () => (
  <p class="small soft">± is one standard uncertainty: about two times in three the true value lies within it.</p>
);

/** One reading: its value with unit and how far to trust it, or the reason why there is none. */
export function MeasureValue({ reading }: { reading: Reading | undefined }) {
  if (reading === undefined) return <span class="reading-absent">not measured yet</span>;
  if (!isPresent(reading)) {
    return (
      <details class="reading-absent">
        <summary>not read</summary>
        <p>{reading.absent}</p>
      </details>
    );
  }
  return (
    <span class="reading">
      <span class="reading-value">{readingInWords(reading)}</span>{" "}
      <span class={`reliability reliability-${reading.reliability}`}>{RELIABILITY_WORDS[reading.reliability]}</span>
    </span>
  );
}

/** The number as a keeper reads it: bound, value with unit, spread, e.g. "at least 312 ppi ± 4". */
export function readingInWords(reading: Present): string {
  if (reading.name === "lossless") return reading.value === 1 ? "yes" : "no";
  const bound = reading.bound === "lower" ? "at least " : reading.bound === "upper" ? "at most " : "";
  return `${bound}${readInWords(reading.name, reading.value)}${spreadInWords(reading.name, reading.spread ?? null)}`;
}
