import { expect, test } from "vitest";
import type { ColourSheet } from "#domain/condition/change/colour-sheet.ts";
import { type LaidSheets, PICTURE } from "#domain/condition/change/lay-sheets.ts";
import { equallySharp } from "#domain/condition/change/tone-removed.ts";
import { normalCdf, random } from "../../../fixtures/picture-scenes.ts";

const SIDE = 240;
const PX_PER_MM = 8;

/** Discs with edges of a known blur, mm, and noise as a share of the light. */
function discs(blurMm: number, noise: number, seed: number): ColourSheet {
  const data = new Float32Array(SIDE * SIDE);
  for (let y = 0; y < SIDE; y++) {
    for (let x = 0; x < SIDE; x++) {
      let light = 0.3;
      for (const [cx, cy, r, level] of [
        [80, 90, 50, 0.1],
        [170, 150, 40, 0.55],
        [60, 190, 30, 0.18],
      ] as const) {
        const inside = normalCdf((r - Math.hypot(x - cx, y - cy)) / (blurMm * PX_PER_MM));
        light += inside * (level - light);
      }
      // the sum of three even numbers of -1..1 has a standard deviation of 1
      const error = 2 * (random(x, y, seed) + random(x, y, seed + 100) + random(x, y, seed + 200)) - 3;
      data[y * SIDE + x] = light * (1 + noise * error);
    }
  }
  return { width: SIDE, height: SIDE, channels: [data, data, data] };
}

const laid = (older: ColourSheet, newer: ColourSheet): LaidSheets => ({
  older,
  newer,
  pxPerMm: PX_PER_MM,
  sheetMm: { widthMm: SIDE / PX_PER_MM, heightMm: SIDE / PX_PER_MM },
  pictureMm: null,
  parts: new Uint8Array(SIDE * SIDE).fill(PICTURE),
  residualMm: 0.01,
  residual95Mm: 0.02,
});

test.each([0.005, 0.06])("the sharper capture is blurred, not the softer one, whose noise is %s of its light", (noise) => {
  const [soft, sharp] = [discs(0.17, noise, 6), discs(0.1, 0.005, 7)];
  // compared as truths: sheets are too large to be printed where they differ
  expect(equallySharp(laid(soft, sharp)).older === soft).toBe(true);
  expect(equallySharp(laid(sharp, soft)).newer === soft).toBe(true);
  // blurs add as squares: what is blurred should lie near a drawn blur of 0.17 mm
  const { newer } = equallySharp(laid(soft, sharp));
  const apart = (one: ColourSheet, other: ColourSheet) =>
    Math.max(...one.channels[0].map((value, at) => Math.abs(value - (other.channels[0][at] as number))));
  const wanted = discs(0.17, 0, 1);
  expect(apart(newer, wanted)).toBeLessThan(apart(sharp, wanted) / 2);
});
