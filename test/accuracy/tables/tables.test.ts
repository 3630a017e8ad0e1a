import { expect, test } from "vitest";
import type { MeasureName } from "#domain/measure/catalogue.ts";
import type { Told, ToldByName } from "../told.ts";
import { disturbedBy } from "./disturbed.ts";
import { followedBy } from "./followed.ts";
import { ladderTable } from "./one-capture.ts";

const told = (value: number, more: Partial<Told> = {}): Told => ({ value, reliability: "firm", ...more });
const pairs = (...each: [truth: number | null, value: number | null, more?: Partial<Told>][]) =>
  each.map(([truth, value, more], level) => ({ level, truth, told: value === null ? undefined : told(value, more) }));
const readings = (values: Partial<Record<MeasureName, number>>): ToldByName =>
  Object.fromEntries(Object.entries(values).map(([name, value]) => [name, told(value)]));

test("a reading that follows the truth is told from one that runs against it, whatever the order of the levels", () => {
  expect(followedBy("skewDegrees", "d", pairs([0, 0], [-2, -1.9], [1, 1.2])).correlation).toBeCloseTo(1);
  expect(followedBy("skewDegrees", "d", pairs([0, 3], [1, 2], [2, 1])).correlation).toBeCloseTo(-1);
});

test("errors are those from the truth, the absent are counted, and without a truth the level is followed", () => {
  const { middleError, worstError, absent, all } = followedBy("skewDegrees", "d", pairs([0, 0.1], [1, 0.5], [2, null]));
  expect([middleError, worstError]).toEqual([expect.closeTo(0.3), 0.5]);
  expect([absent, all]).toEqual([1, 3]);
  const without = followedBy("doubleSaveSigma", "d", pairs([null, 1], [null, 2], [null, 5]));
  expect(without.correlation).toBeCloseTo(1);
  expect(without.worstError).toBeNaN();
  expect(followedBy("skewDegrees", "d", pairs([0, 1], [0, 2], [0, 1])).correlation).toBeNaN();
});

test("an uncertainty is held to the truth, but not that of a bound", () => {
  const { within, withSpread } = followedBy(
    "skewDegrees",
    "d",
    pairs([0, 0.1, { spread: 0.05 }], [1, 1.3, { spread: 0.1 }], [2, 1, { spread: 0.1, bound: "lower" }], [3, 3]),
  );
  expect([within, withSpread]).toEqual([1, 2]);
});

test("readings that a defect moves are told, each content held against itself", () => {
  const contents = [5, 50, 80].map((haze) => ({
    before: readings({ hazePercent: haze, noiseDeltaL: 0.3, streakCount: 0 }),
    after: readings({ hazePercent: haze + 9, noiseDeltaL: 0.3, dustPerCm2: 1 }),
  }));
  const { moved, noLongerRead, newlyRead, looked, count } = disturbedBy(["skewDegrees"], contents);
  expect(moved).toEqual(["`hazePercent` 50.0 → 59.0"]);
  expect(noLongerRead).toEqual(["`streakCount`"]);
  expect(newlyRead).toEqual(["`dustPerCm2`"]);
  expect([looked, count]).toEqual([4, 3]);
  expect(disturbedBy(["hazePercent"], contents).moved).toEqual([]);
});

test("one content of three, a twentieth, or steps both ways are no movement; directions go the shorter way round", () => {
  const moved = (measure: MeasureName, steps: [number, number][]) =>
    disturbedBy(
      [],
      steps.map(([before, after]) => ({ before: readings({ [measure]: before }), after: readings({ [measure]: after }) })),
    ).moved.length;
  expect(
    moved("hazePercent", [
      [10, 10],
      [10, 10],
      [10, 30],
    ]),
  ).toBe(0);
  expect(
    moved("hazePercent", [
      [10, 10.4],
      [10, 10.4],
      [10, 10.4],
    ]),
  ).toBe(0);
  expect(
    moved("hazePercent", [
      [10, 12],
      [10, 8],
    ]),
  ).toBe(0);
  expect(
    moved("focusFalloffDegrees", [
      [359, 1],
      [359, 1],
    ]),
  ).toBe(0);
  expect(
    moved("focusFalloffDegrees", [
      [359, 90],
      [350, 90],
    ]),
  ).toBe(1);
});

test("a ladder's table has a column for each level, and says where a reading was absent", () => {
  const ladder = {
    defect: "d",
    reads: [{ measure: "skewDegrees", truth: () => 0 }],
    levels: [0, 1],
    levelUnit: "°",
    draw: () => never(),
  } as const;
  const rung = (level: number, value: number | null) => ({
    level,
    seed: 1,
    truths: [level],
    told: value === null ? {} : { skewDegrees: told(value) },
  });
  expect(ladderTable(ladder, [rung(0, 0.1), rung(0, 0.2), rung(0, 0.4), rung(1, 1), rung(1, null)])).toBe(
    [
      "| ° | 0 | 1 |",
      "| --- | --- | --- |",
      "| `skewDegrees`: truth | 0.00 | 1.00 |",
      "| read, the middle one | 0.20 | 1.00 |",
      "| worst error | 0.40 | 0.00 |",
      "| absent | 0 of 3 | 1 of 2 |",
    ].join("\n"),
  );
});

function never(): never {
  throw new Error("nothing is drawn here");
}
