import { expect, test } from "vitest";
import { type ChartedCheck, chartedChecks } from "#domain/target/charted-checks.ts";
import type { TargetReading } from "#domain/target/read-target.ts";

const check = (takenOn: string, readings: TargetReading[], more: Partial<ChartedCheck> = {}): ChartedCheck => ({
  takenOn,
  targetName: "Card of 24 patches",
  referenceName: "card.txt",
  isEvenSheet: false,
  read: { readings },
  ...more,
});
const fine = (value: number): TargetReading => ({ name: "targetSfr10EfficiencyPercent", value });
const atLeast = (value: number): TargetReading => ({ name: "targetSfr10EfficiencyPercent", value, bound: "lower" });
const PAGE = { targetName: "Printed page", referenceName: null };

test("a printed page among the checks of a card does not look like a set-up that has moved", () => {
  const checks = [check("2026-01-01", [fine(90)]), check("2026-02-01", [atLeast(55)], PAGE), check("2026-03-01", [fine(91)])];
  expect(chartedChecks("targetSfr10EfficiencyPercent", checks)).toEqual({
    values: [
      { day: "2026-01-01", value: 90 },
      { day: "2026-03-01", value: 91 },
    ],
    bound: null,
    leftOut: 1,
  });
});

test("where the page came last its own checks are set beside each other, as bounds", () => {
  const checks = [check("2026-01-01", [fine(90)]), check("2026-02-01", [atLeast(55)], PAGE), check("2026-03-01", [atLeast(54)], PAGE)];
  const { values, bound, leftOut } = chartedChecks("targetSfr10EfficiencyPercent", checks);
  expect(values.map(({ value }) => value)).toEqual([55, 54]);
  expect([bound, leftOut]).toEqual(["lower", 1]);
});

test("other reference values are another target", () => {
  const colour = (value: number): TargetReading => ({ name: "colourAccuracyMeanDeltaE", value });
  const checks = [check("2026-01-01", [colour(2)], { referenceName: "old.txt" }), check("2026-02-01", [colour(3)])];
  expect(chartedChecks("colourAccuracyMeanDeltaE", checks)).toMatchObject({ values: [{ value: 3 }], leftOut: 1 });
});

test("evenness over the whole frame goes before evenness over a target, though the target came later", () => {
  const even = (value: number): TargetReading => ({ name: "lightnessUniformityPercent", value });
  const sheet = { isEvenSheet: true, targetName: "Even sheet", referenceName: null };
  const checks = [check("2026-01-01", [even(2)], sheet), check("2026-02-01", [even(2.2)], sheet), check("2026-03-01", [even(0.9)])];
  expect(chartedChecks("lightnessUniformityPercent", checks)).toMatchObject({ values: [{ value: 2 }, { value: 2.2 }], leftOut: 1 });
});

test("what no check tells has no values", () => {
  expect(chartedChecks("targetSfr10EfficiencyPercent", [check("2026-01-01", [])])).toEqual({ values: [], bound: null, leftOut: 0 });
});
