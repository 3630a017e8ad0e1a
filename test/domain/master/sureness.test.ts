import { expect, test } from "vitest";
import type { AimLimit } from "#domain/aim/aim.ts";
import { atLeast, atMost } from "#domain/aim/limit.ts";
import { choose } from "#domain/master/choose.ts";
import { surenessInWords } from "#domain/master/doubt-in-words.ts";
import type { Candidate } from "#domain/master/rule.ts";
import { COUNTING, capture } from "./captures.ts";

const ONE = [atLeast("samplingPpi", { lowest: 0, best: 100 }, 1, ["own", "test"])];
const REQUIRING = [atLeast("samplingPpi", { lowest: 200, best: 600, required: 392 }, 1, ["own", "test"])];

const sampling = (captureId: number, value: number, spread?: number, reliability: "firm" | "fair" = "fair"): Candidate =>
  capture(captureId, { samplingPpi: { value, reliability, ...(spread !== undefined && { spread }) } });
const sureOf = (captures: readonly Candidate[], limits: readonly AimLimit[] = ONE) => choose(captures, limits).sureness as number;

/** Rings as they are read: fair, at least so many, without a spread. */
const RINGS = [atMost("ringAreaPercent", { best: 0, highest: 4 }, 1, ["own", "test"])];
const rings = (captureId: number, value: number, bound?: "lower" | "upper"): Candidate =>
  capture(captureId, { ringAreaPercent: { value, reliability: "fair", ...(bound && { bound }) } });

/** Four standard deviations of a share seen in 400 draws are at most 4 · √(0.25 / 400). */
const CHANCE = 0.1;

// Φ from a table of the normal distribution: Φ(0.283) = 0.611, Φ(0.5) = 0.691, Φ(1) = 0.841, Φ(2.83) = 0.998
test.each([
  ["52 ± 5 against 50 ± 5: Φ(2 / √50)", [sampling(1, 52, 5), sampling(2, 50, 5)], ONE, 0.611],
  ["52 ± 0.5 against 50 ± 0.5: Φ(2 / √0.5)", [sampling(1, 52, 0.5), sampling(2, 50, 0.5)], ONE, 0.998],
  ["three that are all but alike: a third each", [sampling(1, 50.002, 5), sampling(2, 50.001, 5), sampling(3, 50, 5)], ONE, 1 / 3],
  ["395 ± 6 where 392 are required, alone: Φ(3 / 6)", [sampling(1, 395, 6)], REQUIRING, 0.691],
  ["389 ± 6 where 392 are required, alone: none is master in Φ(3 / 6)", [sampling(1, 389, 6)], REQUIRING, 0.691],
  ["fair without a spread: a tenth of the range, 55 sure against 50 ± 10, Φ(5 / 10)", [sampling(1, 55, 0), sampling(2, 50)], ONE, 0.691],
  [
    "… or of a value beyond it: 250 sure against 200 ± 20, both as good as they need be, Φ(50 / 20)",
    [sampling(1, 250, 0), sampling(2, 200)],
    ONE,
    0.994,
  ],
])("a choice is as sure as the normal distribution says: %s", (_, captures, limits, expected) => {
  expect(sureOf(captures, limits)).toBeGreaterThan(expected - CHANCE);
  expect(sureOf(captures, limits)).toBeLessThan(expected + CHANCE);
});

test("a fair nought is doubted as well: rings 0 ± 0.4 against 0.2 ± 0.4 of a range of 4 are Φ(0.2 / √0.32) = 0.638, and too close to call", () => {
  const choice = choose([rings(1, 0, "lower"), rings(2, 0.2, "lower")], RINGS);
  expect(choice).toMatchObject({ masterId: 1, closeCall: true });
  expect(Math.abs((choice.sureness as number) - 0.638)).toBeLessThan(CHANCE);
});

test.each([
  ["at least 0 against at least 3.9: the master may truly have more", rings(1, 0, "lower"), rings(2, 3.9, "lower"), RINGS, true],
  ["0 against at most 3.9: the other may truly have none", rings(1, 0), rings(2, 3.9, "upper"), RINGS, true],
  ["at most 0 against at least 3.9: the truth only lies farther apart", rings(1, 0, "upper"), rings(2, 3.9, "lower"), RINGS, false],
  ["90 against 10, of neither a bound", sampling(1, 90, 1), sampling(2, 10, 1), ONE, false],
])("what decides by a bound that leaves the order open is never called sure: %s", (_, master, other, limits, isOpen) => {
  const choice = choose([master, other], limits);
  expect(choice).toMatchObject({ masterId: 1, sureness: 1, decidedByBound: isOpen });
  expect(surenessInWords(choice, true)).toMatch(isOpen ? /^Not sure.*leaves open which of the two is better/ : /^Sure: /);
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
  expect(surenessInWords({ sureness: 0.9975, closeCall: false, decidedByBound: false }, true)).toContain("99 of 100");
  expect(surenessInWords({ sureness: 1, closeCall: false, decidedByBound: false }, true)).toContain("no reading is so doubtful");
  expect(surenessInWords({ sureness: 0.61, closeCall: true, decidedByBound: false }, true)).toMatch(
    /it stays the master in only 61 of 100 chances: a person should look/,
  );
  expect(surenessInWords({ sureness: 0.61, closeCall: true, decidedByBound: false }, false)).toContain("it falls short in only 61 of 100");
  expect(surenessInWords({ sureness: null, closeCall: false, decidedByBound: false }, true)).toBeNull();
});

test("a copy of the master's own exposure is no rival, and another capture as near is", () => {
  const copyOf = (id: number, candidate: Candidate): Candidate => ({
    ...candidate,
    readings: new Map([
      ...candidate.readings,
      ["savedAgainCount", { name: "savedAgainCount", value: 1, reliability: "firm", detail: { sameExposureAs: [id] } }],
    ]),
  });
  const [one, two] = [sampling(1, 52, 5), sampling(2, 51.9, 5)];
  expect(sureOf([one, two])).toBeLessThan(0.6);
  expect(sureOf([copyOf(2, one), copyOf(1, two)])).toBe(1);
  expect(sureOf([copyOf(2, sampling(1, 52, 5)), copyOf(1, sampling(2, 52, 5))])).toBe(1);
  const third = sampling(3, 51, 5);
  expect(sureOf([copyOf(2, one), copyOf(1, two), third])).toBeGreaterThan(sureOf([one, two, third]));
});
