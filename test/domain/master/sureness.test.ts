import { expect, test } from "vitest";
import type { AimLimit } from "#domain/aim/aim.ts";
import { atLeast } from "#domain/aim/limit.ts";
import { choose } from "#domain/master/choose.ts";
import { surenessInWords } from "#domain/master/doubt-in-words.ts";
import type { Candidate } from "#domain/master/rule.ts";
import { COUNTING, capture } from "./captures.ts";

const ONE = [atLeast("samplingPpi", { lowest: 0, best: 100 }, 1, ["own", "test"])];
const REQUIRING = [atLeast("samplingPpi", { lowest: 200, best: 600, required: 392 }, 1, ["own", "test"])];

const sampling = (captureId: number, value: number, spread?: number, reliability: "firm" | "fair" = "fair"): Candidate =>
  capture(captureId, { samplingPpi: { value, reliability, ...(spread !== undefined && { spread }) } });
const sureOf = (captures: readonly Candidate[], limits: readonly AimLimit[] = ONE) => choose(captures, limits).sureness as number;

/** Four standard deviations of a share seen in 400 draws are at most 4 · √(0.25 / 400). */
const CHANCE = 0.1;

// Φ from a table of the normal distribution: Φ(0.283) = 0.611, Φ(0.5) = 0.691, Φ(1) = 0.841, Φ(2.83) = 0.998
test.each([
  ["52 ± 5 against 50 ± 5: Φ(2 / √50)", [sampling(1, 52, 5), sampling(2, 50, 5)], ONE, 0.611],
  ["52 ± 0.5 against 50 ± 0.5: Φ(2 / √0.5)", [sampling(1, 52, 0.5), sampling(2, 50, 0.5)], ONE, 0.998],
  ["three that are all but alike: a third each", [sampling(1, 50.002, 5), sampling(2, 50.001, 5), sampling(3, 50, 5)], ONE, 1 / 3],
  ["395 ± 6 where 392 are required, alone: Φ(3 / 6)", [sampling(1, 395, 6)], REQUIRING, 0.691],
  ["389 ± 6 where 392 are required, alone: none is master in Φ(3 / 6)", [sampling(1, 389, 6)], REQUIRING, 0.691],
  ["fair without a spread is doubted by a tenth: 55 sure against 50 ± 5, Φ(1)", [sampling(1, 55, 0), sampling(2, 50)], ONE, 0.841],
])("a choice is as sure as the normal distribution says: %s", (_, captures, limits, expected) => {
  expect(sureOf(captures, limits)).toBeGreaterThan(expected - CHANCE);
  expect(sureOf(captures, limits)).toBeLessThan(expected + CHANCE);
});

test("firm readings without a spread leave no doubt, whatever they differ by", () => {
  expect(choose([sampling(1, 50.01, undefined, "firm"), sampling(2, 50, undefined, "firm")], ONE)).toMatchObject({
    masterId: 1,
    sureness: 1,
    closeCall: false,
  });
});

test("two that are alike in all that counts are even chances, and a person should look", () => {
  expect(choose([sampling(1, 50, undefined, "firm"), sampling(2, 50, undefined, "firm")], ONE)).toMatchObject({
    sureness: 0.5,
    closeCall: true,
  });
});

test("one that beats the other without doubt is sure, although both are as good as they need be", () => {
  expect(choose([sampling(1, 150, 1), sampling(2, 200, 1)], ONE)).toMatchObject({ masterId: 2, sureness: 1, closeCall: false });
});

test("the wider the spreads, the less sure: 60 against 50 with 1, 5, 10 and 20", () => {
  const shares = [1, 5, 10, 20].map((spread) => sureOf([sampling(1, 60, spread), sampling(2, 50, spread)]));
  expect(shares).toEqual(shares.toSorted((a, b) => b - a));
  expect(new Set(shares).size).toBe(4);
});

test("a doubt in what weighs little makes a choice less unsure than the same doubt in what weighs much", () => {
  const pair = (doubtful: "samplingPpi" | "noiseDeltaL") =>
    [60, 50].map((value, index) => {
      const read = { samplingPpi: value, noiseDeltaL: 100 - value };
      return capture(index + 1, { ...read, [doubtful]: { value: read[doubtful], spread: 15, reliability: "fair" } });
    });
  expect(sureOf(pair("noiseDeltaL"), COUNTING)).toBeGreaterThan(sureOf(pair("samplingPpi"), COUNTING));
});

test("weak readings doubt nothing, since they count for nothing", () => {
  const hint = { value: 10, spread: 100, reliability: "weak" } as const;
  expect(sureOf([capture(1, { samplingPpi: 60, noiseDeltaL: hint }), capture(2, { samplingPpi: 50, noiseDeltaL: hint })], COUNTING)).toBe(
    1,
  );
});

test("the same readings give the same share, in any order; a capture far behind changes nothing", () => {
  const near = [sampling(1, 52, 5), sampling(2, 50, 5)];
  expect(sureOf(near.toReversed())).toBe(sureOf(near));
  expect(sureOf([...near, sampling(3, 1, 0)])).toBe(sureOf(near));
});

test("nothing measured, nothing sure", () => {
  expect(choose([], ONE)).toMatchObject({ sureness: null, closeCall: false });
  expect(choose([capture(1, { samplingPpi: "the size of the print is not known" })], ONE)).toMatchObject({ sureness: null });
});

test("the words never claim more chances than were counted, and ask a person where it is too close", () => {
  expect(surenessInWords({ sureness: 0.9975, closeCall: false }, true)).toContain("99 of 100");
  expect(surenessInWords({ sureness: 1, closeCall: false }, true)).toContain("no reading is so doubtful");
  expect(surenessInWords({ sureness: 0.61, closeCall: true }, true)).toMatch(
    /it stays the master in only 61 of 100 chances: a person should look/,
  );
  expect(surenessInWords({ sureness: 0.61, closeCall: true }, false)).toContain("it falls short in only 61 of 100");
  expect(surenessInWords({ sureness: null, closeCall: false }, true)).toBeNull();
});
