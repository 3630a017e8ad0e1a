import { expect, test } from "vitest";
import { levelsReached } from "#domain/aim/level-reached.ts";
import { PRESERVATION_MASTER_LIMITS } from "#domain/aim/preservation-master.ts";
import { LEVEL_TABLES } from "#domain/aim/published-levels.ts";
import { provesToneAndColour, standingsOf } from "#domain/target/passed.ts";
import type { TargetReading } from "#domain/target/read-target.ts";

// limits of 36 CFR 1236.50, table 2, as the aim quotes them: tone ±4, white balance at most 4, mean colour below 3.5
const PASSING: TargetReading[] = [
  { name: "toneResponseDeltaL", value: 3.2 },
  { name: "whiteBalanceDeltaAb", value: 2.5 },
  { name: "colourAccuracyMeanDeltaE", value: 2.9 },
];

test("a check with tone, white and colour within 36 CFR 1236.50 is trusted for them; one miss, or one that is not read, is not", () => {
  expect(provesToneAndColour(PASSING, PRESERVATION_MASTER_LIMITS)).toBe(true);
  expect(provesToneAndColour([...PASSING.slice(0, 2), { name: "colourAccuracyMeanDeltaE", value: 3.6 }], PRESERVATION_MASTER_LIMITS)).toBe(
    false,
  );
  expect(provesToneAndColour(PASSING.slice(0, 2), PRESERVATION_MASTER_LIMITS)).toBe(false);
  expect(provesToneAndColour([...PASSING.slice(0, 2), { name: "colourAccuracyMeanDeltaE", absent: "x" }], PRESERVATION_MASTER_LIMITS)).toBe(
    false,
  );
});

test("a limit with two ends is missed on either side: SFR50 between 40 and 75 % of half the sampling", () => {
  const state = (value: number) =>
    standingsOf([{ name: "targetSfr50SharePercent", value }], PRESERVATION_MASTER_LIMITS).find(
      ({ limit }) => limit.measure === "targetSfr50SharePercent",
    )?.state;
  expect([state(39), state(50), state(76)]).toEqual(["missed", "met", "missed"]);
});

test("a bound proves one side only: evenness of at least 0.5 % is not shown to be at most 3 %, at least 5 % is shown to miss it", () => {
  const state = (name: "lightnessUniformityPercent" | "targetSfr50SharePercent", value: number) =>
    standingsOf([{ name, value, bound: "lower" }], PRESERVATION_MASTER_LIMITS).find(({ limit }) => limit.measure === name)?.state;
  expect([state("lightnessUniformityPercent", 0.5), state("lightnessUniformityPercent", 5)]).toEqual(["not shown", "missed"]);
  // 40 to 75 %: a soft printed edge cannot show a miss below, and too fine is too fine
  expect([state("targetSfr50SharePercent", 30), state("targetSfr50SharePercent", 80)]).toEqual(["not shown", "missed"]);
});

test("what a check read is placed among the published levels, what it did not read says why, and without a check all is open", () => {
  const table = LEVEL_TABLES.find(({ rows }) => rows.some(({ measure }) => measure === "whiteBalanceDeltaAb"));
  if (!table) throw new Error("No table has a row for white balance.");
  const of = (checked: TargetReading[]) =>
    levelsReached(table, [], checked).find(({ row }) => row.measure === "whiteBalanceDeltaAb")?.standing;
  expect(of([])?.state).toBe("needs-target");
  expect(of([{ name: "whiteBalanceDeltaAb", value: 0.1 }])).toMatchObject({ state: "level", level: table.levels.at(-1) });
  expect(of([{ name: "whiteBalanceDeltaAb", value: 60 }])?.state).toBe("below");
  expect(of([{ name: "whiteBalanceDeltaAb", absent: "no grey" }])).toEqual({ state: "not-read", reason: "no grey" });
});
