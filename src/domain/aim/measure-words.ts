import { describeMeasure } from "./target-measures.ts";

/** Name of a measure inside a sentence, e.g. “sampling” or “SFR 50 %”. */
export function measureInWords(measure: string): string {
  const label = describeMeasure(measure)?.label ?? measure;
  return /^\p{Lu}\p{Ll}/u.test(label) ? label[0]?.toLowerCase() + label.slice(1) : label;
}

/** A value with its unit, e.g. “392 ppi”, “0.50 %”, “1.20°”, “3 of 4”. */
export function valueInWords(measure: string, value: number, decimals = describeMeasure(measure)?.decimals ?? 2): string {
  const unit = describeMeasure(measure)?.unit ?? "";
  const number = value.toFixed(decimals).replace("-", "−");
  if (unit === "") return number;
  return unit === "°" ? `${number}°` : `${number} ${unit}`;
}

/** Two values of one measure, with as many decimals as it takes to tell them apart (six at most). */
export function valuesApart(measure: string, one: number, other: number): readonly [string, string] {
  const usual = describeMeasure(measure)?.decimals ?? 2;
  for (let decimals = usual; decimals < 6; decimals++) {
    const pair = [valueInWords(measure, one, decimals), valueInWords(measure, other, decimals)] as const;
    if (pair[0] !== pair[1]) return pair;
  }
  return [valueInWords(measure, one, 6), valueInWords(measure, other, 6)];
}
