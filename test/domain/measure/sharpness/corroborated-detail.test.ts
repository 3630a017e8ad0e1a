import { expect, test, vi } from "vitest";
import { median } from "#domain/measure/numbers/robust.ts";
import { captureFinePrint, drawFinePrint, type FineCapture } from "../../../fixtures/fine-captures.ts";
import { contrastErrors, detailOf, savedAsJpeg, trueLimit } from "../../../fixtures/fine-sets.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

/** Spectra of whole pictures take a while on a machine that does much else. */
vi.setConfig({ testTimeout: 180_000 });

const DETAIL = "detailCyPerMm" as const;
const print = drawFinePrint(411);
const SHARP: FineCapture = { ppi: 500, blurMm: 0.045, noiseCodes: 4, noiseSeed: 1, turnDeg: 1, cornersOffMm: 0.1 };
const SOFT: FineCapture = { ...SHARP, blurMm: 0.075, noiseSeed: 2, quarters: 1, sharpening: { radiusPx: 2, strength: 3 } };
const PLAIN: FineCapture = { ...SHARP, ppi: 400, blurMm: 0.05, noiseSeed: 3, turnDeg: -2 };
const drawn = captureFinePrint(print, SHARP);

test("of three captures each one's own limit and contrast are read, and a soft one stays soft though it was sharpened", async () => {
  const set = [SHARP, SOFT, PLAIN];
  const captures = [drawn, captureFinePrint(print, SOFT), captureFinePrint(print, PLAIN)];
  const readings = await detailOf(captures);
  const read = readings.map((reading) => presentOf([reading], DETAIL));
  for (const [index, { value, reliability, bound }] of read.entries()) {
    const truth = trueLimit(print, set[index] as FineCapture, captures[index] as (typeof captures)[number]);
    expect(reliability).toBe("firm");
    if (bound === "lower") expect(value).toBeLessThan(truth + 0.3);
    else expect(Math.abs(value - truth), `${index}: ${value} for ${truth}`).toBeLessThan(0.3);
  }
  const [sharp, soft] = read as [(typeof read)[number], (typeof read)[number]];
  expect(soft.value).toBeLessThan(sharp.value - 0.5);
  expect(soft.bound).toBeUndefined();
  expect(soft.detail?.contrastAgainstCapture).toBe(0);
  const errors = contrastErrors(readings[1] as (typeof readings)[number], 1, set);
  expect(errors.length).toBeGreaterThan(10);
  expect(median(errors)).toBeLessThan(0.04);
});

test("of two captures only what both show is said: at least, and fair", async () => {
  const other: FineCapture = { ...PLAIN, blurMm: 0.07 };
  const both = [drawn, captureFinePrint(print, other)];
  const weaker = trueLimit(print, other, both[1] as (typeof both)[number]);
  for (const reading of await detailOf(both)) {
    const read = presentOf([reading], DETAIL);
    expect(read).toMatchObject({ reliability: "fair", bound: "lower" });
    expect(read.value).toBeLessThan(weaker + 0.3);
    expect(read.value).toBeGreaterThan(weaker - 1.5);
  }
});

test("neither two saves of one capture nor noise that repeats at its place in the frame are taken for detail", async () => {
  const repeated = captureFinePrint(print, { ...SHARP, blurMm: 0.06 });
  for (const reading of await detailOf([drawn, await savedAsJpeg(drawn, 75), repeated]))
    expect(reasonOf([reading], DETAIL)).toMatch(
      /shares fine noise with another capture.*as copies of one capture do.*turned by a quarter,? would tell/,
    );
});

test("captures of another print are refused", async () => {
  const stranger = captureFinePrint(drawFinePrint(412), { ...SHARP, noiseSeed: 5 });
  for (const reading of await detailOf([drawn, stranger]))
    expect(reasonOf([reading], DETAIL)).toMatch(/may not show the same print|could be lined up/);
});

test("a picture of few pixels is read in smaller tiles: fair, with a wider spread that holds the truth", async () => {
  const set: FineCapture[] = [
    { ppi: 170, blurMm: 0.085, noiseCodes: 9, noiseSeed: 21, turnDeg: 1 },
    { ppi: 170, blurMm: 0.11, noiseCodes: 9, noiseSeed: 22, turnDeg: -1 },
    { ppi: 180, blurMm: 0.085, noiseCodes: 9, noiseSeed: 23, quarters: 1 },
  ];
  const captures = set.map((options) => captureFinePrint(print, options));
  for (const [index, reading] of (await detailOf(captures)).entries()) {
    const read = presentOf([reading], DETAIL);
    const truth = trueLimit(print, set[index] as FineCapture, captures[index] as (typeof captures)[number]);
    expect(read.reliability).toBe("fair");
    expect(read.spread).toBeGreaterThanOrEqual(0.6 / Math.sqrt(3));
    if (read.bound === "lower") expect(read.value).toBeLessThan(truth + 0.6);
    else expect(Math.abs(read.value - truth), `${index}: ${read.value} for ${truth}`).toBeLessThan(0.6);
  }
});
