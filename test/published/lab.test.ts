import { expect, test } from "vitest";
import { labOf, lightnessOf } from "#domain/measure/colour/lab.ts";
import { luminanceAt, xyzAt } from "#domain/measure/picture.ts";
import { pictureOf } from "../fixtures/pictures.ts";

// Arithmetic from IEC 61966-2-1 (curve and primaries), Bradford adaptation to the D50 of ICC.1, and CIE 15 (L*a*b*).
test.each([
  { rgb: [255, 255, 255], y: 1, lab: [100, 0, 0] },
  { rgb: [128, 128, 128], y: 0.21586, lab: [53.585, 0, 0] },
  { rgb: [119, 119, 119], y: 0.18447, lab: [50.034, 0, 0] },
  { rgb: [255, 0, 0], lab: [54.29, 80.814, 69.89] },
  { rgb: [0, 255, 0], lab: [87.819, -79.275, 80.993] },
  { rgb: [0, 0, 255], lab: [29.566, 68.286, -112.033] },
  { rgb: [194, 150, 130], lab: [65.92, 14.963, 17.266] },
  { rgb: [10, 10, 10], y: 0.00304, lab: [2.742, 0, 0] },
])("sRGB code $rgb is L*a*b* $lab under D50", ({ rgb, y, lab }) => {
  const picture = pictureOf(Uint8Array.from(rgb), 1, 1);
  const read = labOf(...xyzAt(picture, 0, 0));
  lab.forEach((value, index) => {
    expect(Math.abs((read[index] as number) - value)).toBeLessThan(0.1);
  });
  if (y !== undefined) expect(luminanceAt(picture, 0, 0)).toBeCloseTo(y, 4);
});

// Reflection density D = -log10 Y.
test.each([
  [0.05, 95.63],
  [0.1, 91.43],
  [0.3, 76.14],
  [1, 37.84],
  [2, 8.99],
  [2.2, 5.7],
])("a density of %d reads as L* %d", (density, lightness) => {
  expect(lightnessOf(10 ** -density)).toBeCloseTo(lightness, 2);
});
