import { expect, test } from "vitest";
import { atLeast, atMost, targetAtMost } from "#domain/aim/limit.ts";
import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import { choose } from "#domain/master/choose.ts";
import { isLeftOpen } from "#domain/master/requirements.ts";
import { shown } from "#domain/master/shown.ts";
import type { Reading } from "#domain/measure/reading.ts";
import { GOOD_ENOUGH } from "../../fixtures/captured-print.ts";
import { COUNTING, capture } from "./captures.ts";

test("without captures there is no master and no best file", () => {
  expect(choose([], COUNTING)).toMatchObject({ masterId: null, runnerUpId: null, bestId: null, verdicts: [] });
});

test("the higher overall desirability wins: 0.5 everywhere against 0.9, 0.4 and 0.4, by hand 0.5 against 0.6", () => {
  const even = capture(1, { samplingPpi: 50, sfr50CyPerMm: 50, noiseDeltaL: 50 });
  const uneven = capture(2, { samplingPpi: 90, sfr50CyPerMm: 40, noiseDeltaL: 60 });
  const judgement = choose([even, uneven], COUNTING);
  expect(judgement.verdicts.map((verdict) => verdict.overall)).toEqual([
    expect.closeTo(0.5, 12),
    expect.closeTo((0.9 ** 3 * 0.4 ** 3) ** (1 / 6), 12),
  ]);
  expect(judgement).toMatchObject({ masterId: 2, runnerUpId: 1, bestId: 2 });
});

test("a capture that another one beats everywhere is marked with the one that beats it", () => {
  const judgement = choose([capture(1, { samplingPpi: 80, noiseDeltaL: 20 }), capture(2, { samplingPpi: 70, noiseDeltaL: 30 })], COUNTING);
  expect(judgement.masterId).toBe(1);
  expect(judgement.verdicts.map((verdict) => verdict.beatenBy)).toEqual([null, 1]);
});

test("beyond what is good enough a capture can still beat another: 700 before 650 where 600 is best", () => {
  const limits = [atLeast("samplingPpi", { lowest: 200, best: 600 }, 1, ["own", "test"])];
  expect(choose([capture(1, { samplingPpi: 650 }), capture(2, { samplingPpi: 700 })], limits).masterId).toBe(2);
});

test("an absent measure is not 0: the pair is compared on what both show", () => {
  const silent = capture(1, { samplingPpi: 80, sfr50CyPerMm: "the edges lie too straight on the pixels", noiseDeltaL: 30 });
  const soft = capture(2, { samplingPpi: 60, sfr50CyPerMm: 90, noiseDeltaL: 20 });
  // on sampling and noise, by hand: 0.8^3 · 0.7 = 0.358 against 0.6^3 · 0.8 = 0.173
  expect(choose([silent, soft], COUNTING)).toMatchObject({ masterId: 1, runnerUpId: 2 });
});

test("captures that share no measure are alike, and the one taken in first stands", () => {
  expect(choose([capture(7, { noiseDeltaL: 90 }), capture(3, { samplingPpi: 10 })], COUNTING).masterId).toBe(3);
});

test("a weak reading never decides", () => {
  const hint = capture(1, { samplingPpi: 50, sfr50CyPerMm: { value: 100, reliability: "weak" } });
  const plain = capture(2, { samplingPpi: 51, sfr50CyPerMm: 10 });
  const judgement = choose([hint, plain], COUNTING);
  expect(judgement.masterId).toBe(2);
  expect(judgement.verdicts[0]?.measures[1]).toMatchObject({ value: null, notShown: expect.stringContaining("weak") });
});

test("a bound counts at its value when captures are compared, and says that it is one", () => {
  const soft = capture(1, { sfr50CyPerMm: { value: 40, reliability: "fair", bound: "lower" } });
  const sharp = capture(2, { sfr50CyPerMm: { value: 60, reliability: "fair", bound: "lower" } });
  const judgement = choose([soft, sharp], COUNTING);
  expect(judgement.masterId).toBe(2);
  expect(judgement.verdicts[0]?.measures[1]).toMatchObject({ value: 40, bound: "lower" });
});

const REQUIRING = [
  atLeast("lossless", { lowest: 0, best: 1, required: 1 }, 1, ["own", "test"]),
  atLeast("samplingPpi", { lowest: 200, best: 600, required: 392 }, 1, ["own", "test"]),
  atMost("glareAreaPercent", { best: 0, highest: 8, required: 2 }, 1, ["own", "test"]),
];

test("a requirement is a gate: a JPEG is no preservation master however good it is", () => {
  const fineJpeg = capture(1, { lossless: 0, samplingPpi: 900 });
  const plainTiff = capture(2, { lossless: 1, samplingPpi: 392 });
  const judgement = choose([fineJpeg, plainTiff], REQUIRING);
  expect(judgement).toMatchObject({ masterId: 2, runnerUpId: null });
  expect(judgement.verdicts[0]?.shortfalls).toEqual([
    { measure: "lossless", sense: "at-least", required: 1, value: 0, bound: null, notShown: null },
  ]);
});

test("where nobody meets the requirements there is no master, and the best file is the one nearest to them", () => {
  const jpeg = capture(1, { lossless: 0, samplingPpi: 900, glareAreaPercent: 0 });
  const coarseJpeg = capture(2, { lossless: 0, samplingPpi: 150, glareAreaPercent: 0 });
  const finerJpeg = capture(3, { lossless: 0, samplingPpi: 950, glareAreaPercent: 0 });
  expect(choose([jpeg, coarseJpeg, finerJpeg], REQUIRING)).toMatchObject({ masterId: null, runnerUpId: null, bestId: 3 });
});

test("a required measure that is absent is not shown, with its reason", () => {
  const judgement = choose([capture(1, { lossless: 1, samplingPpi: "the size of the print is not known" })], REQUIRING);
  expect(judgement.masterId).toBeNull();
  expect(judgement.verdicts[0]?.shortfalls).toEqual([
    { measure: "samplingPpi", sense: "at-least", required: 392, value: null, bound: null, notShown: "the size of the print is not known" },
  ]);
});

test.each([
  ["at least 400 ppi shows that 392 ppi are met", "lower", 400, null],
  ["at least 300 ppi shows neither", "lower", 300, { value: 300, bound: "lower", notShown: "only a bound is known, at least 300 ppi" }],
  ["at most 300 ppi misses 392 ppi for certain", "upper", 300, { value: 300 }],
  [
    "at most 400 ppi does not show that 392 ppi are met",
    "upper",
    400,
    { value: 400, bound: "upper", notShown: "only a bound is known, at most 400 ppi" },
  ],
] as const)("a bound proves one side only: %s", (_, bound, value, expected) => {
  const judgement = choose([capture(1, { lossless: 1, samplingPpi: { value, bound, reliability: "fair" } })], REQUIRING);
  const [short = null] = judgement.verdicts[0]?.shortfalls ?? [];
  if (expected === null) expect(short).toBeNull();
  else expect(short).toMatchObject(expected);
});

const GLARE_AT_MOST_2 = atMost("glareAreaPercent", { best: 0, highest: 8, required: 2 }, 1, ["own", "test"]);
const SAMPLING_AT_LEAST_392 = atLeast("samplingPpi", { lowest: 200, best: 600, required: 392 }, 1, ["own", "test"]);

test.each([
  [GLARE_AT_MOST_2, 1.4, "lower", true],
  [GLARE_AT_MOST_2, 2.6, "lower", false],
  [GLARE_AT_MOST_2, 1.4, "upper", false],
  [GLARE_AT_MOST_2, 2.6, "upper", true],
  [GLARE_AT_MOST_2, 1.4, undefined, false],
  [SAMPLING_AT_LEAST_392, 300, "lower", true],
  [SAMPLING_AT_LEAST_392, 300, "upper", false],
  [SAMPLING_AT_LEAST_392, 400, "lower", false],
  [SAMPLING_AT_LEAST_392, 400, "upper", true],
] as const)(
  "a bound on the wrong side of what is required leaves it open: $0.measure, %2$s bound of %1$s",
  (limit, value, bound, isOpen) => {
    const reading = { name: limit.measure, value, reliability: "fair", ...(bound && { bound }) } as Reading;
    expect(isLeftOpen(limit, shown(limit, reading))).toBe(isOpen);
  },
);

test("glare read as “at least 9 %” fails where 2 % is the most, and “at least 0 %” does not", () => {
  const glare = (value: number) =>
    capture(1, { lossless: 1, samplingPpi: 400, glareAreaPercent: { value, bound: "lower", reliability: "firm" } });
  expect(choose([glare(9)], REQUIRING).masterId).toBeNull();
  expect(choose([glare(0)], REQUIRING).masterId).toBe(1);
});

test("glare must be met where it is read, and is excused where only one capture exists", () => {
  const alone = capture(1, { lossless: 1, samplingPpi: 400, glareAreaPercent: "there is no other capture to compare with" });
  const glaring = capture(1, { lossless: 1, samplingPpi: 400, glareAreaPercent: 9 });
  expect(choose([alone], REQUIRING).masterId).toBe(1);
  expect(choose([glaring], REQUIRING).verdicts[0]?.shortfalls.map((short) => short.measure)).toEqual(["glareAreaPercent"]);
});

test("a capture that was never measured shows nothing, and says so", () => {
  const judgement = choose([capture(1, {})], REQUIRING);
  expect(judgement.verdicts[0]).toMatchObject({ overall: null });
  expect(judgement.verdicts[0]?.shortfalls.map((short) => short.notShown)).toEqual([
    "it has not been measured yet",
    "it has not been measured yet",
  ]);
});

test("what only a target proves decides nothing and is listed", () => {
  const judgement = choose(
    [capture(1, { lossless: 1, samplingPpi: 400 })],
    [...REQUIRING, targetAtMost("toneResponseDeltaL", 4, ["own", "test"])],
  );
  expect(judgement).toMatchObject({ masterId: 1, needTarget: ["toneResponseDeltaL"] });
});

test("two captures that differ by less than their spreads are a close call, and no longer with small spreads", () => {
  const pair = (spread: number) => [
    capture(1, { samplingPpi: { value: 50, reliability: "fair", spread } }),
    capture(2, { samplingPpi: { value: 52, reliability: "fair", spread } }),
  ];
  expect(choose(pair(5), COUNTING)).toMatchObject({ masterId: 2, closeCall: true });
  expect(choose(pair(0.5), COUNTING)).toMatchObject({ masterId: 2, closeCall: false });
});

test("one worthless measure does not hide how captures differ in the others", () => {
  const better = capture(2, { samplingPpi: 90, sfr50CyPerMm: 0 });
  expect(choose([capture(1, { samplingPpi: 30, sfr50CyPerMm: 0 }), better], COUNTING).masterId).toBe(2);
});

test("a soft capture that was sharpened never wins over one whose finer detail other captures confirm", () => {
  const sharpened = { sfr50CyPerMm: 5, sfr10CyPerMm: 7, sharpeningOvershootPercent: 6, detailCyPerMm: 3.2 };
  const finer = { sfr50CyPerMm: 3.6, sfr10CyPerMm: 6.5, sharpeningOvershootPercent: 0, detailCyPerMm: 5.2 };
  for (const aim of PUBLISHED_AIMS) {
    const { detailCyPerMm: _, ...edgesOfSharpened } = sharpened;
    const { detailCyPerMm: __, ...edgesOfFiner } = finer;
    const byEdges = choose(
      [capture(1, { ...GOOD_ENOUGH, ...edgesOfSharpened }), capture(2, { ...GOOD_ENOUGH, ...edgesOfFiner })],
      aim.limits,
    );
    const byDetail = choose([capture(1, { ...GOOD_ENOUGH, ...sharpened }), capture(2, { ...GOOD_ENOUGH, ...finer })], aim.limits);
    expect(byDetail.masterId, aim.purpose.key).toBe(2);
    if (aim.purpose.key === "preservation-master") expect(byEdges.masterId).toBe(1);
  }
});
