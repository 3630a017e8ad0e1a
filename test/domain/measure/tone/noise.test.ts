import { expect, test } from "vitest";
import { noise } from "#domain/measure/tone/noise.ts";
import { PATCH_PX, readNoisePatch } from "#domain/measure/tone/noise-patch.ts";
import { climb, readValue } from "../../../accuracy/ladder.ts";
import { noiseLadder } from "../../../accuracy/ladders/noise.ts";
import { captureSheet, SMALL } from "../../../fixtures/captured-sheet.ts";
import { dustOf } from "../../../fixtures/defects/dust.ts";
import { paperWaves } from "../../../fixtures/defects/paper-waves.ts";
import { savedAsJpeg } from "../../../fixtures/jpeg-saves.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

const WIDE = { widthMm: 44, heightMm: 52, border: { left: 12, right: 12, top: 12, bottom: 16 } } as const;

test.each([0.4, 1, 2.5])("noise drawn with a standard deviation of %d L* reads within 6 %", (drawn) => {
  const { picture, outline, context } = captureSheet({ print: WIDE, noise: drawn, seed: 71 });
  const read = presentOf(noise(picture, outline, context), "noiseDeltaL");
  expect(Math.abs(read.value / drawn - 1)).toBeLessThan(0.06);
  expect(Math.abs((read.detail?.withoutTexture as number) / drawn - 1)).toBeLessThan(0.06);
});

test("uneven light is not noise", () => {
  const even = captureSheet({ print: WIDE, noise: 0.5, seed: 72 });
  const uneven = captureSheet({ print: WIDE, noise: 0.5, light: { fallOff: 0.3, across: 0.3 }, seed: 72 });
  const read = ({ picture, outline, context }: typeof even) => presentOf(noise(picture, outline, context), "noiseDeltaL").value;
  expect(Math.abs(read(uneven) / read(even) - 1)).toBeLessThan(0.06);
});

test("more noise reads higher", () => {
  const values = [0.2, 0.5, 1, 2].map((drawn) => {
    const { picture, outline, context } = captureSheet({ print: WIDE, noise: drawn, seed: 73 });
    return presentOf(noise(picture, outline, context), "noiseDeltaL").value;
  });
  expect(values).toEqual([...values].sort((a, b) => a - b));
});

test("noise below 0.25 is said to suggest smoothing, noise above is not", () => {
  const quiet = captureSheet({ print: WIDE, noise: 0, bits: 16, seed: 74 });
  const usual = captureSheet({ print: WIDE, noise: 0.6, seed: 74 });
  expect(presentOf(noise(quiet.picture, quiet.outline, quiet.context), "noiseDeltaL").note).toContain("smoothed");
  expect(presentOf(noise(usual.picture, usual.outline, usual.context), "noiseDeltaL").note).toBeUndefined();
});

test("a border too narrow for a patch at this sampling leaves it absent", () => {
  const { picture, outline, context } = captureSheet({ print: SMALL, ppi: 150, seed: 75 });
  expect(reasonOf(noise(picture, outline, context), "noiseDeltaL")).toContain("64 × 64");
});

test("a clipped border hides its noise", () => {
  const { picture, outline, context } = captureSheet({ print: WIDE, cast: [2, 2, 2], seed: 76 });
  expect(reasonOf(noise(picture, outline, context), "noiseDeltaL")).toContain("clipped");
});

test("without an outline, without a border, and on one pixel it is absent", () => {
  const { picture, outline, context } = captureSheet({ ppi: 60 });
  expect(reasonOf(noise(picture, null, context), "noiseDeltaL")).toContain("not found");
  expect(reasonOf(noise(picture, { ...outline, image: null }, context), "noiseDeltaL")).toContain("no plain border");
  expect(reasonOf(noise(pictureOf(Uint8Array.of(1, 2, 3), 1, 1), outline, contextOf()), "noiseDeltaL")).not.toBe("");
});

test("texture of the paper is told from noise, each within a tenth, and counts in the value with it", () => {
  const { picture, outline, context } = captureSheet({ print: WIDE, noise: 0.5, defects: [paperWaves(0.8, 24)], seed: 77 });
  const read = presentOf(noise(picture, outline, context), "noiseDeltaL");
  expect(Math.abs(read.value / Math.hypot(0.5, 0.8) - 1)).toBeLessThan(0.1);
  expect(Math.abs((read.detail?.withoutTexture as number) / 0.5 - 1)).toBeLessThan(0.1);
  expect(Math.abs((read.detail?.texture as number) / 0.8 - 1)).toBeLessThan(0.1);
});

// Written with the seeds 79 to 81, proven on 82 to 84.
test.each([82, 83, 84])("twelve specks of dust on each cm² are no noise (seed %d)", (seed) => {
  const at = (perCm2: number) => {
    const defects = [dustOf({ perCm2, pxPerMm: 250 / 25.4, depth: 0.35, seed })];
    const { picture, outline, context } = captureSheet({ ppi: 250, print: WIDE, noise: 0.4, seed, defects });
    return presentOf(noise(picture, outline, context), "noiseDeltaL").value;
  };
  expect(Math.abs(at(12) / at(0) - 1)).toBeLessThan(0.06);
});

test.each([82, 83, 84])("noise of 4 L* is read though it reaches white, from its darker half and not firmly (seed %d)", (seed) => {
  const { picture, outline, context } = captureSheet({ print: WIDE, noise: 4, seed });
  const read = presentOf(noise(picture, outline, context), "noiseDeltaL");
  expect(Math.abs(read.value / 4 - 1)).toBeLessThan(0.06);
  expect(read).toMatchObject({ reliability: "fair", note: expect.stringContaining("darker half") });
});

test("a clipped patch in which nothing lies below the middle tells no noise, and not that there is none", () => {
  const codes = new Uint8Array(PATCH_PX ** 2 * 3).fill(250);
  // single pixels at places that balance each other, 1.6 % of them
  for (let y = 0; y < PATCH_PX; y++)
    for (let x = 0; x < PATCH_PX; x++)
      if ([3, 12].includes(x % 16) && [3, 12].includes(y % 16)) codes.fill(255, 3 * (y * PATCH_PX + x), 3 * (y * PATCH_PX + x) + 3);
  expect(readNoisePatch(pictureOf(codes, PATCH_PX, PATCH_PX), 0, 0)).toBeNull();
  codes.fill(249, 0, 3);
  expect(readNoisePatch(pictureOf(codes, PATCH_PX, PATCH_PX), 0, 0)?.deviation).toBeGreaterThan(0);
});

test("a lossy file shows the least that the capture had", () => {
  const sheet = captureSheet({ print: WIDE, noise: 1, known: { fileKind: "jpeg" }, seed: 82 });
  const read = presentOf(noise(savedAsJpeg(sheet.picture, 60), sheet.outline, sheet.context), "noiseDeltaL");
  expect(read).toMatchObject({ bound: "lower", reliability: "fair", note: expect.stringContaining("at least so much") });
  expect(read.value).toBeLessThan(1);
});

test("the ladder of noise is followed", () => {
  for (const { level, measured } of climb(noiseLadder, [78], [0.5, 2]))
    expect(Math.abs(readValue(measured, "noiseDeltaL") / level - 1)).toBeLessThan(0.08);
});
