import { MEASURES, type MeasureName } from "#domain/measure/catalogue.ts";

/** A figure of a measure as its table shows it; what is not known by a word. */
export const shown = (measure: MeasureName, value: number | null | undefined, unknown = "absent"): string =>
  typeof value !== "number" || Number.isNaN(value) ? unknown : value.toFixed(MEASURES[measure].decimals);

/** One figure where all are alike, else each. */
export const each = (values: readonly string[]): string => (new Set(values).size === 1 ? (values[0] as string) : values.join(", "));

export const name = (measure: MeasureName) => `\`${measure}\``;
