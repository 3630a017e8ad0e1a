import type { MeasureName } from "#domain/measure/catalogue.ts";
import { isPresent, type Reading } from "#domain/measure/reading.ts";

/** What is kept of a reading that was read; what is absent is left out. Plain data, so that it can be kept in a file. */
export type Told = {
  readonly value: number;
  readonly reliability: "firm" | "fair" | "weak";
  readonly spread?: number;
  readonly bound?: "lower" | "upper";
};

export type ToldByName = Partial<Readonly<Record<MeasureName, Told>>>;

export const toldOf = (readings: readonly Reading[]): ToldByName =>
  Object.fromEntries(
    readings.filter(isPresent).map(({ name, value, reliability, spread, bound }) => [name, { value, reliability, spread, bound }]),
  );
