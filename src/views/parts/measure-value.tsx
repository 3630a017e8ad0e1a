import { MEASURES, type MeasureDefinition } from "#domain/measure/catalogue.ts";
import { isPresent, type Present, type Reading, type Reliability } from "#domain/measure/reading.ts";

const RELIABILITY_WORDS: Readonly<Record<Reliability, string>> = {
  firm: "firm",
  fair: "fair: use with its spread",
  weak: "weak: a hint only",
};

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
      <span class="reading-value">{valueInWords(reading)}</span>
      <span class={`reliability reliability-${reading.reliability}`}>{RELIABILITY_WORDS[reading.reliability]}</span>
    </span>
  );
}

/** The number as a keeper reads it: bound, value, spread and unit, e.g. "at least 312 ± 4 ppi". */
export function valueInWords(reading: Present): string {
  const definition = MEASURES[reading.name];
  if (definition.name === "lossless") return reading.value === 1 ? "yes" : "no";
  const bound = reading.bound === "lower" ? "at least " : reading.bound === "upper" ? "at most " : "";
  const spread =
    reading.spread === undefined || reading.spread === 0 ? "" : ` ± ${figure(reading.spread, spreadDecimals(definition, reading.spread))}`;
  return `${bound}${figure(reading.value, definition.decimals)}${spread}${unitAfter(definition)}`;
}

/** A limit in the same form as the readings it is held against. */
export function figureWithUnit(definition: MeasureDefinition, value: number): string {
  return `${figure(value, definition.decimals)}${unitAfter(definition)}`;
}

const figure = (value: number, decimals: number) =>
  new Intl.NumberFormat("en-GB", { minimumFractionDigits: decimals, maximumFractionDigits: decimals }).format(value);

/** A spread smaller than the last decimal shown must not turn into "± 0". */
function spreadDecimals(definition: MeasureDefinition, spread: number): number {
  const needed = Math.ceil(-Math.log10(spread));
  return Math.min(6, Math.max(definition.decimals, needed));
}

const unitAfter = (definition: MeasureDefinition) => (definition.unit === "" ? "" : definition.unit === "°" ? "°" : ` ${definition.unit}`);
