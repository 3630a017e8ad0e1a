import type { TargetMeasureName } from "../aim/target-measures.ts";
import type { CheckValue } from "./drift.ts";
import type { TargetReading } from "./read-target.ts";

export type ChartedCheck = {
  readonly takenOn: string;
  readonly targetName: string;
  readonly referenceName: string | null;
  /** a plain sheet that tells evenness alone */
  readonly isEvenSheet: boolean;
  readonly read: { readonly readings: readonly TargetReading[] };
};

export type Charted = {
  readonly values: readonly CheckValue[];
  /** what the values are bounds of; null: the values themselves */
  readonly bound: "lower" | "upper" | null;
  /** checks that tell the measure, but on another target or as a bound where these are values */
  readonly leftOut: number;
};

/**
 * The checks of a measure that can be set beside each other: those on the latest one's target, held against the same values. Two targets
 * differ by their own edges and inks, which would look like a set-up that moved. Evenness over the whole frame goes before evenness over a target.
 * @param checks oldest first
 */
export function chartedChecks(measure: TargetMeasureName, checks: readonly ChartedCheck[]): Charted {
  const told = checks.flatMap((check) => {
    const reading = check.read.readings.find(({ name }) => name === measure);
    return reading && "value" in reading ? [{ check, value: reading.value, bound: reading.bound ?? null }] : [];
  });
  const latest = told.findLast(({ check }) => check.isEvenSheet && measure === "lightnessUniformityPercent") ?? told.at(-1);
  if (!latest) return { values: [], bound: null, leftOut: 0 };
  const like = told.filter(
    ({ check, bound }) =>
      bound === latest.bound &&
      check.isEvenSheet === latest.check.isEvenSheet &&
      check.targetName === latest.check.targetName &&
      check.referenceName === latest.check.referenceName,
  );
  const values = like.map(({ check, value }) => ({ day: check.takenOn, value }));
  return { values, bound: latest.bound, leftOut: told.length - like.length };
}
