import { converter, convertLrgbToRgb } from "culori";
import { describe, expect, test } from "vitest";
import { SRGB_TO_XYZ_D50, srgbLinear16 } from "#domain/measure/colour/srgb.ts";
import type { Picture } from "#domain/measure/picture.ts";
import { seeded } from "#domain/seeded.ts";
import { readEvenSheet, withEvenSheet } from "#domain/target/even-sheet.ts";

const toLab = converter("lab");

/** A grey sheet whose light at each place of the frame (0 to 1 both ways) is told by a function; codes by culori. */
function drawSheet(light: (u: number, v: number) => number, { widthPx = 360, heightPx = 240, noise = 0 } = {}) {
  const noisy = seeded(11);
  const codes = new Uint16Array(widthPx * heightPx * 3);
  const lightness: number[] = [];
  for (let y = 0; y < heightPx; y++)
    for (let x = 0; x < widthPx; x++) {
      const lit = light((x + 0.5) / widthPx, (y + 0.5) / heightPx);
      lightness.push(toLab({ mode: "lrgb", r: lit, g: lit, b: lit }).l);
      const shown = Math.min(1, Math.max(0, lit * (1 + noise * (noisy() + noisy() - 1))));
      codes.fill(
        Math.round(65535 * convertLrgbToRgb({ r: shown, g: shown, b: shown }).r),
        (y * widthPx + x) * 3,
        (y * widthPx + x) * 3 + 3,
      );
    }
  const linear = srgbLinear16();
  const picture: Picture = { widthPx, heightPx, codes, maxCode: 65535, linearOf: [linear, linear, linear], toXyzD50: SRGB_TO_XYZ_D50 };
  return { picture, lightness };
}

/** Standard deviation over mean in percent, of L* as culori has it at every pixel. */
function spreadPercent(lightness: readonly number[]): number {
  const mean = lightness.reduce((sum, each) => sum + each, 0) / lightness.length;
  return (100 * Math.sqrt(lightness.reduce((sum, each) => sum + (each - mean) ** 2, 0) / lightness.length)) / mean;
}

const value = (picture: Picture) => {
  const read = readEvenSheet(picture);
  if (!read.ok || !("value" in read.value)) throw new Error("The sheet was not read.");
  return read.value;
};

describe("evenness of a plain sheet that fills the frame", () => {
  test.each([
    ["light that falls off to the right", (u: number) => 0.7 * (1 - 0.25 * u)],
    ["light that falls off to the corners", (u: number, v: number) => 0.8 * (1 - 0.6 * ((u - 0.5) ** 2 + (v - 0.5) ** 2))],
    ["a grey sheet lit from below", (_: number, v: number) => 0.25 * (0.7 + 0.3 * v)],
  ])("%s reads as the spread of L* that an independent library finds over all pixels", (_, light) => {
    const { picture, lightness } = drawSheet(light);
    expect(value(picture).value / spreadPercent(lightness)).toBeGreaterThan(0.97);
    expect(value(picture).value / spreadPercent(lightness)).toBeLessThan(1.03);
  });

  test("noise and the grain of paper are not unevenness, and an even sheet reads as one", () => {
    expect(value(drawSheet(() => 0.6, { noise: 0.05 }).picture).value).toBeLessThan(0.15);
  });

  test("a tall frame reads as a wide one", () => {
    const tall = drawSheet((_, v) => 0.7 * (1 - 0.25 * v), { widthPx: 240, heightPx: 360 });
    const wide = drawSheet((u) => 0.7 * (1 - 0.25 * u));
    expect(value(tall.picture).value).toBeCloseTo(value(wide.picture).value, 6);
  });

  test("says where it is darkest", () => {
    const { picture } = drawSheet((u, v) => 0.7 * (1 - 0.15 * u - 0.15 * v));
    expect(value(picture).note).toMatch(/lightest L\* \d+\.\d top left, darkest L\* \d+\.\d bottom right/);
  });

  test.each([
    ["clipped", () => 1.2, "clipped parts look even"],
    ["dark", () => 0.03, "too dark for a plain white or grey sheet"],
    ["not filling the frame", (u: number) => (u > 0.9 ? 0.05 : 0.7), "Something else than plain paper"],
    ["printed on", (u: number, v: number) => (Math.sin(40 * u) * Math.sin(30 * v) > 0.6 ? 0.1 : 0.7), "Something else than plain paper"],
  ])("a sheet that is %s is refused in words", (_, light, words) => {
    const read = readEvenSheet(drawSheet(light).picture);
    expect(!read.ok && read.refusals[0]?.happened).toContain(words);
  });

  test.each([
    [3, 2],
    [4, 4],
    [1, 1],
    [360, 47],
  ])("a picture of %i by %i px is refused in words, for its fields would tell nothing", (widthPx, heightPx) => {
    const read = readEvenSheet(drawSheet(() => 0.6, { widthPx, heightPx }).picture);
    expect(!read.ok && read.refusals[0]?.happened).toContain("too small");
  });

  test("the smallest picture that is read tells a figure", () => {
    expect(value(drawSheet(() => 0.6, { widthPx: 48, heightPx: 48 }).picture).value).toBeCloseTo(0, 6);
  });
});

test("an even sheet's figure stands in the place of the target's own, with its day; without a sheet all stays", () => {
  const target = [
    { name: "lightnessUniformityPercent", value: 0.4, bound: "lower" },
    { name: "targetNoiseDeltaL", value: 1 },
  ] as const;
  const sheet = {
    takenOn: "2026-03-01",
    readings: [{ name: "lightnessUniformityPercent", value: 2.5, note: "Over the whole frame." }],
  } as const;
  expect(withEvenSheet(target, sheet)).toEqual([
    { name: "lightnessUniformityPercent", value: 2.5, note: "From the even sheet of 1 March 2026. Over the whole frame." },
    target[1],
  ]);
  expect(withEvenSheet(target, null)).toEqual(target);
});
