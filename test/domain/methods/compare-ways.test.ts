import { expect, test } from "vitest";
import type { AimLimit } from "#domain/aim/aim.ts";
import { compareWays } from "#domain/methods/compare-ways.ts";
import { summariseWay } from "#domain/methods/summarise-way.ts";
import { verdictInWords, whatTheDataCannotTell } from "#domain/methods/verdict-in-words.ts";
import type { JudgedCapture } from "#domain/methods/way.ts";

const limit = (measure: string, sense: AimLimit["sense"], lowest: number | null, best: number, highest: number | null): AimLimit => ({
  measure,
  sense,
  lowest,
  best,
  highest,
  weight: 1,
  requiredAtLeast: null,
  requiredAtMost: null,
  provedBy: "print",
  source: "",
  sourceStatus: "own",
});
const DETAIL = limit("detailCyPerMm", "at-least", 1, 8, null);
const GLARE = limit("glareAreaPercent", "at-most", null, 0, 8);
const LIMITS = [DETAIL, GLARE];
const WAYS = { first: "copy stand", second: "phone" };

const capture = (way: string, printId: number, values: Record<string, number>, more: Partial<JudgedCapture> = {}): JudgedCapture => ({
  printId,
  side: "front",
  way,
  meets: false,
  values: new Map(Object.entries(values).map(([measure, value]) => [measure, { value, bound: null }])),
  setUpId: null,
  takenAt: null,
  ...more,
});

/** Eight prints captured both ways: the stand shows 2 cy/mm more each time, give or take; glare is as it falls. */
const eight = Array.from({ length: 8 }, (_, index) => [
  capture("stand", index, { detailCyPerMm: 6 + 0.1 * index, glareAreaPercent: index % 2 }, { meets: true }),
  capture("phone", index, { detailCyPerMm: 4 - 0.1 * index, glareAreaPercent: (index + 1) % 2 }),
]).flat();

test("a difference that every print shows is told, with its size; one that comes and goes is not", () => {
  const { pairs, measures } = compareWays(eight, "stand", "phone", LIMITS);
  const [detail, glare] = measures;
  expect(pairs).toBe(8);
  // 2 + 0.2 k for k = 0 to 7: the median is 2.7
  expect(detail?.difference).toBeCloseTo(2.7, 10);
  expect(detail).toMatchObject({ better: 8, worse: 0, verdict: "first" });
  // Holm: two questions, 2 · 2 / 2⁸
  expect(detail?.chance).toBeCloseTo(4 / 256, 10);
  expect(detail?.interval?.low).toBeGreaterThanOrEqual(2);
  expect(detail?.interval?.high).toBeLessThanOrEqual(3.4);
  expect(glare).toMatchObject({ better: 4, worse: 4, verdict: "not told" });
});

test("the other way round the same pairs speak for the second", () => {
  expect(compareWays(eight, "phone", "stand", LIMITS).measures[0]).toMatchObject({ verdict: "second", better: 0, worse: 8 });
});

test("less glare is better, though the number is smaller", () => {
  const shiny = Array.from({ length: 8 }, (_, index) => [
    capture("stand", index, { glareAreaPercent: 0.1 * index }),
    capture("phone", index, { glareAreaPercent: 3 + 0.2 * index }),
  ]).flat();
  const [glare] = compareWays(shiny, "stand", "phone", [GLARE]).measures;
  expect(glare?.verdict).toBe("first");
  expect(glare?.difference).toBeLessThan(0);
  expect(glare?.gain?.middle).toBeGreaterThan(0);
});

test("five prints tell nothing however they fall, and the page says why", () => {
  const compared = compareWays(
    eight.filter(({ printId }) => printId < 5),
    "stand",
    "phone",
    LIMITS,
  );
  expect(compared.measures[0]).toMatchObject({ better: 5, chance: null, interval: null, verdict: "not told" });
  expect(whatTheDataCannotTell(compared, []).join(" ")).toContain("fewer than six prints");
});

test("only prints captured both ways count; several captures of a side stand for it with their median", () => {
  const more = [
    ...eight,
    capture("stand", 99, { detailCyPerMm: 50 }),
    capture("phone", 0, { detailCyPerMm: 0 }),
    capture("phone", 0, { detailCyPerMm: 3 }),
  ];
  const { pairs, measures } = compareWays(more, "stand", "phone", [DETAIL]);
  expect(pairs).toBe(8);
  // print 0: 6 less the median of 4, 0 and 3; with 2.2, 2.4 and so on to 3.4 the middle lies between 2.8 and 3
  expect(measures[0]?.better).toBe(8);
  expect(measures[0]?.difference).toBeCloseTo(2.9, 10);
});

test("a front is never held against a back, and a print with both counts once, by its front", () => {
  const sides = [capture("stand", 1, { detailCyPerMm: 6 }), capture("phone", 1, { detailCyPerMm: 4 }, { side: "back" })];
  expect(compareWays(sides, "stand", "phone", [DETAIL]).pairs).toBe(0);
  const backs = eight.map((each) => ({ ...each, side: "back" as const, values: new Map() }));
  const both = compareWays([...eight, ...backs], "stand", "phone", [DETAIL]);
  expect(both.pairs).toBe(8);
  expect(both.measures[0]?.pairs).toBe(8);
});

test("a way with more tries meets the aim no more easily: the first capture counts", () => {
  const tries = Array.from({ length: 8 }, (_, index) => [
    capture("stand", index, {}, { meets: false }),
    capture("stand", index, {}, { meets: true }),
    capture("phone", index, {}, { meets: false }),
  ]).flat();
  expect(compareWays(tries, "stand", "phone", []).meets).toEqual({ both: 0, firstOnly: 0, secondOnly: 0, neither: 8 });
  expect(summariseWay("stand", tries, [], new Map()).meets.count).toBe(0);
});

test("alone, too, a way stands by the first capture of the front, and by that of the back only where there is no other", () => {
  const sides = [
    capture("stand", 1, {}, { side: "back", meets: true }),
    capture("stand", 1, {}, { meets: false }),
    capture("stand", 1, {}, { meets: true }),
    capture("stand", 2, {}, { side: "back", meets: true }),
  ];
  expect(summariseWay("stand", sides, [], new Map()).meets.count).toBe(1);
});

test("the middle half of the differences stands beside their median, by hand for 2.0, 2.2 and so on to 3.4", () => {
  const [detail] = compareWays(eight, "stand", "phone", [DETAIL]).measures;
  // the quarters lie 7/4 and 3 · 7/4 steps of 0.2 up, to the nearest of the eight: the third and the sixth
  expect(detail?.middleHalf.low).toBeCloseTo(2.4, 10);
  expect(detail?.middleHalf.high).toBeCloseTo(3.0, 10);
});

test("pairs whose order bounds leave open are left out: at least 4 may be more than 6, and is less than nothing", () => {
  const half = eight.map((each) => ({
    ...each,
    values: new Map([
      ["detailCyPerMm", each.way === "stand" ? { value: 6, bound: null } : { value: 4, bound: "lower" as const }],
      ["glareAreaPercent", each.way === "stand" ? { value: 0, bound: null } : { value: 4, bound: "lower" as const }],
    ]),
  }));
  const { measures } = compareWays(half, "stand", "phone", LIMITS);
  // glare: at least 4 is more than 0, so every pair is ordered
  expect(measures.map(({ measure, pairs }) => [measure, pairs])).toEqual([["glareAreaPercent", 8]]);
});

test("a mere requirement, without a range in which it counts, is told by its own unit", () => {
  const [detail] = compareWays(eight, "stand", "phone", [limit("detailCyPerMm", "at-least", null, 8, null)]).measures;
  expect(detail).toMatchObject({ verdict: "first", gain: null });
});

test("the verdict names what is better and by how much, counts who meets the aim, and says what it cannot tell", () => {
  const compared = compareWays(eight, "stand", "phone", LIMITS);
  const verdict = verdictInWords(compared, WAYS);
  expect(verdict[0]).toMatch(/^Copy stand is better in .*2\.70? cy\/mm as the median, on 8 of 8/);
  expect(verdict[1]).toContain("8 only by copy stand, 0 only by phone, 0 by neither. That is more than chance.");
  expect(whatTheDataCannotTell(compared, ["whiteBalanceDeltaAb"]).join(" ")).toMatch(/chance.*target/s);
});

test("without a print in common nothing is compared, and that is what is said", () => {
  const apart = compareWays([capture("stand", 1, {}), capture("phone", 2, {})], "stand", "phone", LIMITS);
  expect(verdictInWords(apart, WAYS)).toEqual(["No print was captured both by copy stand and by phone, so nothing can be compared."]);
});

test("a value that is only a bound is used, and told as one", () => {
  const bound = eight.map((each) => ({
    ...each,
    values: new Map([["detailCyPerMm", { value: each.way === "stand" ? 6 : 4, bound: "lower" as const }]]),
  }));
  const compared = compareWays(bound, "stand", "phone", [DETAIL]);
  expect(compared.measures[0]?.hasBounds).toBe(true);
  expect(whatTheDataCannotTell(compared, []).join(" ")).toMatch(/only bounds.*which is better/);
});

test("a way alone is summed up by quarters, share that meets the aim, pace and price", () => {
  const taken = eight.map((each, index) => ({ ...each, takenAt: new Date(Date.UTC(2026, 1, 1, 10, index)).toISOString() }));
  const priced = taken.map((each) => ({ ...each, setUpId: 7 }));
  const summary = summariseWay("stand", priced, LIMITS, new Map([[7, { amount: 400, currency: "EUR" }]]));
  expect(summary).toMatchObject({
    captures: 8,
    prints: 8,
    cost: { perPrint: 50, prints: 8, leftOut: 0 },
    minutes: { minutes: 2, steps: 7 },
  });
  expect(summary.meets.percent).toBe(100);
  // Wilson for 8 of 8: 8 / (8 + 1.96²)
  expect(summary.meets.lowPercent).toBeCloseTo((100 * 8) / (8 + 1.959964 ** 2), 3);
  expect(summariseWay("phone", taken, LIMITS, new Map()).cost).toEqual({ absent: "its captures name no set-up" });
});
