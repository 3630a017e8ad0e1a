import { expect, test } from "vitest";
import type { TargetReading } from "#domain/target/read-target.ts";
import { completedBy } from "#domain/target/standing-readings.ts";

const colour = (value: number): TargetReading => ({ name: "colourAccuracyMeanDeltaE", value });
const NO_COLOUR: TargetReading = { name: "colourAccuracyMeanDeltaE", absent: "nobody knows the colours of this paper" };

test("a printed page leaves the colours of the full target before it standing, with that day told", () => {
  const march = { takenOn: "2026-03-01", readings: [colour(1.8)] };
  expect(completedBy([NO_COLOUR], [march])).toEqual([
    { name: "colourAccuracyMeanDeltaE", value: 1.8, note: "From the check of 1 March 2026." },
  ]);
});

test("what the check tells itself stays, and of others the first that tells is taken", () => {
  const others = [
    { takenOn: "2026-05-01", readings: [NO_COLOUR] },
    { takenOn: "2026-03-01", readings: [colour(1.8)] },
    { takenOn: "2026-01-01", readings: [colour(9)] },
  ];
  expect(completedBy([colour(4)], others)).toEqual([colour(4)]);
  expect(completedBy([NO_COLOUR], others)[0]).toMatchObject({ value: 1.8 });
});

test("a bound of the newest check stands against an older value, an absent figure takes a value only, and what nobody tells stays absent with its reason", () => {
  const bound: TargetReading = { name: "targetSfr10EfficiencyPercent", value: 60, bound: "lower" };
  const full: TargetReading = { name: "targetSfr10EfficiencyPercent", value: 88 };
  expect(completedBy([bound], [{ takenOn: "2016-03-01", readings: [{ ...full, value: 25 }] }])).toEqual([bound]);
  const absent: TargetReading = { name: "targetSfr10EfficiencyPercent", absent: "no edge was found" };
  expect(completedBy([absent], [{ takenOn: "2026-03-01", readings: [bound] }])).toEqual([absent]);
  expect(completedBy([full], [{ takenOn: "2026-03-01", readings: [bound] }])).toEqual([full]);
  expect(completedBy([bound, NO_COLOUR], [])).toEqual([bound, NO_COLOUR]);
});
