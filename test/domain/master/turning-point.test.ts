import { expect, test } from "vitest";
import { atLeast, atMost } from "#domain/aim/limit.ts";
import { choose } from "#domain/master/choose.ts";
import { turnInWords } from "#domain/master/doubt-in-words.ts";
import { type Candidate, rule } from "#domain/master/rule.ts";
import type { MeasureName } from "#domain/measure/catalogue.ts";
import { COUNTING, capture, seeded } from "./captures.ts";

const UNEVEN = { samplingPpi: 90, sfr50CyPerMm: 40, noiseDeltaL: 60 };
const EVEN = { samplingPpi: 50, sfr50CyPerMm: 50, noiseDeltaL: 50 };

test("the smallest change of a reading, by hand: 0.9³ · d² · 0.4 = 0.5⁶ at d = 0.2315, so SFR 50 % from 40 to 23.14", () => {
  const { masterId, turn } = choose([capture(1, UNEVEN), capture(2, EVEN)], COUNTING);
  expect(masterId).toBe(1);
  expect(turn?.reading).toEqual({ captureId: 1, measure: "sfr50CyPerMm", from: 40, to: 23.14 });
  const master = (sfr50CyPerMm: number) => rule([capture(1, { ...UNEVEN, sfr50CyPerMm }), capture(2, EVEN)], COUNTING).masterId;
  expect([master(23.16), master(23.14)]).toEqual([1, 2]);
});

test("the smallest change of a weight, by hand: w · ln 1.8 = 3 · ln 1.25 at w = 1.139, so sampling from 3 to 1.1", () => {
  const captures = [capture(1, UNEVEN), capture(2, EVEN)];
  expect(choose(captures, COUNTING).turn?.weight).toEqual({ measure: "samplingPpi", from: 3, to: 1.1 });
  const master = (weight: number) => rule(captures, [{ ...COUNTING[0], weight } as (typeof COUNTING)[0], ...COUNTING.slice(1)]).masterId;
  expect([master(1.2), master(1.1)]).toEqual([1, 2]);
});

test("a capture that is better in everything is turned by no weight", () => {
  const { turn } = choose([capture(1, { samplingPpi: 80, noiseDeltaL: 20 }), capture(2, { samplingPpi: 70, noiseDeltaL: 30 })], COUNTING);
  expect(turn?.weight).toBeNull();
  expect(turn?.reading).not.toBeNull();
});

const REQUIRING = [
  atLeast("lossless", { lowest: 0, best: 1, required: 1 }, 1, ["own", "test"]),
  atLeast("samplingPpi", { lowest: 200, best: 600, required: 392 }, 1, ["own", "test"]),
  atMost("glareAreaPercent", { best: 0, highest: 8, required: 2 }, 1, ["own", "test"]),
];

test("a master alone is turned by the requirement that it comes nearest to missing: 400 ppi where 392 are asked", () => {
  const { turn } = choose([capture(1, { lossless: 1, samplingPpi: 400, glareAreaPercent: 1 })], REQUIRING);
  expect(turn).toEqual({ reading: { captureId: 1, measure: "samplingPpi", from: 400, to: 391 }, weight: null });
});

test("a capture that would win if it met the one requirement it misses is what turns it", () => {
  const { masterId, turn } = choose(
    [
      capture(1, { lossless: 1, samplingPpi: 420, glareAreaPercent: 1.5 }),
      capture(2, { lossless: 1, samplingPpi: 390, glareAreaPercent: 0 }),
    ],
    REQUIRING,
  );
  expect(masterId).toBe(1);
  expect(turn?.reading).toEqual({ captureId: 2, measure: "samplingPpi", from: 390, to: 392 });
});

test("facts of the file are not what turns a choice: a JPEG does not become lossless", () => {
  const { turn } = choose(
    [
      capture(1, { lossless: 1, samplingPpi: 590, glareAreaPercent: 0 }),
      capture(2, { lossless: 0, samplingPpi: 600, glareAreaPercent: 0 }),
    ],
    REQUIRING,
  );
  expect(turn?.reading?.measure).not.toBe("lossless");
});

test("without a master nothing is turned", () => {
  expect(choose([capture(1, { lossless: 0, samplingPpi: 500 })], REQUIRING).turn).toBeNull();
});

const MEASURES = ["samplingPpi", "sfr50CyPerMm", "noiseDeltaL"] as const;

test("whatever turning point is named, putting its number in makes the rule choose another capture", () => {
  const random = seeded(5);
  let [readings, weights] = [0, 0];
  for (let round = 0; round < 400; round++) {
    const rows = Array.from({ length: 2 + Math.floor(random() * 3) }, () =>
      Object.fromEntries(MEASURES.filter(() => random() > 0.2).map((measure) => [measure, 1 + random() * 98])),
    );
    const captures = rows.map((row, index) => capture(index + 1, row));
    const { masterId, turn } = choose(captures, COUNTING);
    if (turn?.reading) {
      const { captureId, measure, to } = turn.reading;
      const changed = rows.map((row, index) =>
        capture(index + 1, index + 1 === captureId ? { ...row, [measure as MeasureName]: to } : row),
      );
      expect(rule(changed, COUNTING).masterId).not.toBe(masterId);
      readings++;
    }
    if (turn?.weight) {
      const { measure, to } = turn.weight;
      const weighed = COUNTING.map((limit) => (limit.measure === measure ? { ...limit, weight: to } : limit));
      expect(rule(captures, weighed).masterId).not.toBe(masterId);
      weights++;
    }
  }
  expect(readings).toBeGreaterThan(200);
  expect(weights).toBeGreaterThan(50);
});

test("it is told in words, with the file and both numbers", () => {
  const captures: Candidate[] = [capture(1, UNEVEN), capture(2, EVEN)];
  expect(turnInWords(choose(captures, COUNTING))).toBe(
    "It would turn if SFR 50 % in capture-1.tif were 23.14 cy/mm instead of 40.00 cy/mm, or if the weight of sampling were 1.1 instead of 3.",
  );
  expect(turnInWords(choose([], COUNTING))).toBeNull();
});
