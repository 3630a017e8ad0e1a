import { HINT_FROM } from "../measure/file/double-save.ts";
import { describeMeasure } from "./target-measures.ts";

/** Name of a measure inside a sentence, e.g. “sampling” or “SFR 50 %”. */
export function measureInWords(measure: string): string {
  const label = describeMeasure(measure)?.label ?? measure;
  return /^\p{Lu}\p{Ll}/u.test(label) ? label[0]?.toLowerCase() + label.slice(1) : label;
}

/** A value with its unit, e.g. “392 ppi”, “0.50 %”, “1.20°”, “3 of 4”. */
export function valueInWords(measure: string, value: number, decimals = describeMeasure(measure)?.decimals ?? 2): string {
  if (measure === "lossless") return value >= 1 ? "yes" : "no";
  const unit = describeMeasure(measure)?.unit ?? "";
  // what rounds to nought has no sign
  const number = (Number(value.toFixed(decimals)) || 0).toFixed(decimals).replace("-", "−");
  if (unit === "") return number;
  return unit === "°" ? `${number}°` : `${number} ${unit}`;
}

/** A value as it was read of a capture: signs of a second save below what can be told from chance are no figure. */
export const readInWords = (measure: string, value: number): string =>
  measure === "doubleSaveSigma" && value < HINT_FROM ? "no sign found" : valueInWords(measure, value);

/** Decimals beyond those of the value at which a spread is no longer written out: it is as good as none. */
const MOST_FURTHER_DECIMALS = 2;

/** A standard uncertainty behind its value, in the unit of that, e.g. “ ± 0.004”; empty where there is none. Never rounded to nothing. */
export function spreadInWords(measure: string, spread: number | null): string {
  if (spread === null || spread === 0) return "";
  const decimals = describeMeasure(measure)?.decimals ?? 2;
  const needed = Math.ceil(-Math.log10(spread));
  const most = decimals + MOST_FURTHER_DECIMALS;
  return needed > most ? ` ± under ${(10 ** -most).toFixed(most)}` : ` ± ${spread.toFixed(Math.max(decimals, needed))}`;
}

/** How far two values lie apart, with its sign, e.g. “+80 ppi”; a yes less a no is 1, and sides of the sheet are no share of four here. */
export function differenceInWords(measure: string, difference: number): string {
  const sign = difference > 0 ? "+" : "";
  if (measure === "lossless" || measure === "sidesSeen") return `${sign}${String(difference).replace("-", "−")}`;
  return `${sign}${valueInWords(measure, difference)}`;
}

/** A figure of a table with as many decimals as it is written with. */
export const figureInWords = (measure: string, figure: number): string =>
  valueInWords(measure, figure, String(figure).split(".")[1]?.length ?? 0);

/** A value that may be a bound, e.g. “at least 5.20 cy/mm”. */
export function boundInWords(measure: string, value: number, bound: "lower" | "upper" | null, decimals?: number): string {
  const before = bound === null ? "" : bound === "lower" ? "at least " : "at most ";
  return `${before}${valueInWords(measure, value, decimals)}`;
}

export type Shown = { readonly value: number; readonly bound: "lower" | "upper" | null };

/** Two values of one measure, with as many decimals as it takes to tell them apart (six at most). */
export function valuesApart(measure: string, one: Shown, other: Shown): readonly [string, string] {
  const usual = describeMeasure(measure)?.decimals ?? 2;
  let decimals = usual;
  while (
    decimals < 6 &&
    one.value !== other.value &&
    valueInWords(measure, one.value, decimals) === valueInWords(measure, other.value, decimals)
  )
    decimals++;
  return [boundInWords(measure, one.value, one.bound, decimals), boundInWords(measure, other.value, other.bound, decimals)];
}
