import { expect, test } from "vitest";
import { moire } from "#domain/measure/surface/moire.ts";
import { captureSheet } from "../../../fixtures/captured-sheet.ts";
import { paperTexture } from "../../../fixtures/defects/paper-texture.ts";
import { savedAsJpeg } from "../../../fixtures/jpeg-saves.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

const PRINT = { widthMm: 54, heightMm: 60, border: { left: 5, right: 5, top: 5, bottom: 9 } } as const;

const read = (depth: number, periodMm: number, more: Parameters<typeof captureSheet>[0] = {}) => {
  const sheet = captureSheet({ seed: 531, noise: 0.5, print: PRINT, defects: depth > 0 ? [paperTexture(periodMm, depth)] : [], ...more });
  return moire(sheet.picture, sheet.outline, sheet.context);
};

test("a texture finer than two pixels reads the share of light that it was drawn with, and never more than as a hint", () => {
  const [faint, strong] = [0.02, 0.08].map((depth) => presentOf(read(depth, 0.16), "moirePercent")) as [
    ReturnType<typeof presentOf>,
    ReturnType<typeof presentOf>,
  ];
  expect(Math.abs(faint.value / 2 - 1)).toBeLessThan(0.25);
  expect(Math.abs(strong.value / 8 - 1)).toBeLessThan(0.25);
  expect(strong).toMatchObject({ reliability: "weak", note: expect.stringContaining("turned by some degrees would tell") });
});

test("its beat has the distance that sampling makes of it", () => {
  // at 3°, waves of 0.16 mm along both diagonals, sampled every 0.127 mm, alias to (-0.165, -0.249) cycles per px
  const pitch = 25.4 / 200;
  const [cos, sin] = [Math.cos((3 * Math.PI) / 180), Math.sin((3 * Math.PI) / 180)];
  const waves = [pitch / 0.16, pitch / 0.16] as const;
  const alias = (value: number) => value - Math.round(value);
  const beat = Math.hypot(alias(cos * waves[0] - sin * waves[1]), alias(sin * waves[0] + cos * waves[1]));
  expect(Math.abs((presentOf(read(0.05, 0.16), "moirePercent").detail?.periodPx as number) * beat - 1)).toBeLessThan(0.1);
});

test.each(["scene", "night"] as const)("a %s without a texture reads nought, and says how faint a one would have been seen", (content) => {
  const reading = presentOf(read(0, 0.16, { print: { ...PRINT, content } }), "moirePercent");
  expect(reading.value).toBe(0);
  expect(reading.detail?.leastSeenPercent).toBeLessThan(2);
});

test("blocks of a JPEG are no pattern, and hide none", () => {
  const saved = (depth: number) => {
    const sheet = captureSheet({ seed: 533, noise: 0.5, print: PRINT, defects: depth > 0 ? [paperTexture(0.8, depth)] : [] });
    return presentOf(moire(savedAsJpeg(sheet.picture, 70), sheet.outline, sheet.context), "moirePercent").value;
  };
  expect(saved(0)).toBe(0);
  expect(Math.abs(saved(0.08) / 8 - 1)).toBeLessThan(0.3);
});

test("a picture that is rough all over has no reading and a reason", () => {
  expect(reasonOf(read(0, 0.16, { noise: 20 }), "moirePercent")).toContain("too much detail");
});

test("a small print, or none, has no reading and a reason", () => {
  const small = captureSheet({ seed: 532, ppi: 60 });
  expect(reasonOf(moire(small.picture, small.outline, small.context), "moirePercent")).toContain("too small");
  expect(reasonOf(moire(small.picture, null, small.context), "moirePercent")).toContain("not found");
});
