import { expect, test } from "vitest";
import { exactSampleSize, shareWithInterval } from "#domain/condition/sampling.ts";

/** R. V. Krejcie and D. W. Morgan, "Determining Sample Size for Research Activities", 1970, table 1 (95 %, ±5 points, share 50 %). */
const KREJCIE_MORGAN: readonly [population: number, sample: number][] = [
  [10, 10],
  [15, 14],
  [20, 19],
  [25, 24],
  [50, 44],
  [100, 80],
  [110, 86],
  [220, 140],
  [240, 148],
  [1200, 291],
  [1300, 297],
  [1500, 306],
];

test.each(KREJCIE_MORGAN)("a collection of %i asks for a sample of %i, as in the published table", (population, sample) => {
  const exact = exactSampleSize({ population, marginPercent: 5, confidencePercent: 95, expectedPercent: 50 });
  // the table is rounded to the nearest print
  expect(Math.round(exact)).toBe(sample);
});

/** R. G. Newcombe, Statistics in Medicine 17, 1998, 857–872, table I, method 3 (score interval without continuity correction), 95 %. */
const NEWCOMBE: readonly [seen: number, looked: number, low: number, high: number][] = [
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
];

test.each(NEWCOMBE)("%i of %i: the interval as published", (seen, looked, low, high) => {
  const { lowPercent, highPercent } = shareWithInterval({ seen, looked, population: null, confidencePercent: 95 });
  expect(lowPercent / 100).toBeCloseTo(low, 4);
  expect(highPercent / 100).toBeCloseTo(high, 4);
});
