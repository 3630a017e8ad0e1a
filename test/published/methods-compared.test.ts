import { binomialDistribution } from "simple-statistics";
import { expect, test } from "vitest";
import { medianInterval, resampledMedians } from "#domain/methods/bootstrap.ts";
import { fewestPairs, holm, signTest } from "#domain/methods/sign-test.ts";

test("J. H. Zar, Biostatistical Analysis, example of the sign test on deer's legs (from memory): of ten deer eight have the longer hind leg, P = 0.109", () => {
  expect(signTest(8, 2)).toBeCloseTo(0.109375, 12);
});

test("Schaum's Outline of Beginning Statistics, example 14.2 (through a second-hand copy): three of ten on one side, two-sided P = 0.3438", () => {
  expect(signTest(3, 7)).toBeCloseTo(0.3438, 4);
});

test("by hand: eight of nine on one side, 2 · (1 + 9) / 2⁹ = 0.039", () => {
  expect(signTest(8, 1)).toBeCloseTo(20 / 512, 12);
});

test("the binomial distribution of simple-statistics gives the same two tails, for few and for many", () => {
  for (const [better, worse] of [
    [3, 9],
    [20, 11],
    [260, 240],
  ] as const) {
    const share = binomialDistribution(better + worse, 0.5) ?? [];
    let tail = 0;
    for (let k = 0; k <= Math.min(better, worse); k++) tail += share[k] ?? 0;
    // the library stops summing at 1 − 0.0001
    expect(signTest(better, worse)).toBeCloseTo(Math.min(1, 2 * tail), 3);
  }
});

test("no count is lopsided when both are alike, and five pairs can show nothing at 5 % (2 / 2⁵ = 0.0625), six can", () => {
  expect(signTest(5, 5)).toBe(1);
  expect(signTest(0, 0)).toBe(1);
  expect(signTest(5, 0)).toBeGreaterThan(0.05);
  expect(signTest(6, 0)).toBeLessThan(0.05);
  expect(fewestPairs(0.05)).toBe(6);
  expect(fewestPairs(0.01)).toBe(8);
});

test("S. Holm 1979, worked by hand: 0.01, 0.04, 0.03 become 0.03, 0.06, 0.06", () => {
  const adjusted = holm([0.01, 0.04, 0.03]);
  expect(adjusted.map((p) => Number(p.toFixed(10)))).toEqual([0.03, 0.06, 0.06]);
  expect(holm([0.6, 0.9])).toEqual([1, 1]);
});

test("B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap 1993, table 2.2 (from memory): the treated mice's median of 94 days has a standard error of 37.83 with endless resampling", () => {
  const medians = resampledMedians([94, 197, 16, 38, 99, 141, 23], 20_000);
  const mean = medians.reduce((sum, value) => sum + value, 0) / medians.length;
  const spread = Math.sqrt(medians.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (medians.length - 1));
  expect(spread).toBeGreaterThan(37.83 * 0.98);
  expect(spread).toBeLessThan(37.83 * 1.02);
});

test("B. Efron 1979, closed form: the resampled median of seven values is the k-th of them with a probability that binomial sums give", () => {
  const values = [1, 2, 3, 4, 5, 6, 7];
  const medians = resampledMedians(values, 20_000);
  // P(median* > x_(k)) = P(at most 3 of 7 draws fall on the k smallest)
  const choose = (n: number, k: number): number => (k === 0 ? 1 : (choose(n, k - 1) * (n - k + 1)) / k);
  const above = (k: number) => [0, 1, 2, 3].reduce((sum, j) => sum + choose(7, j) * (k / 7) ** j * (1 - k / 7) ** (7 - j), 0);
  for (let k = 1; k <= 7; k++) {
    const expected = above(k - 1) - above(k);
    const seen = medians.filter((value) => value === k).length / medians.length;
    expect(Math.abs(seen - expected)).toBeLessThan(0.015);
  }
});

test("B. Efron 1979, by hand: of seven values the resampled median lies at the second or below in 9.8 %, at the first in 1.0 %, so that the 95 % interval runs from the second to the sixth", () => {
  // P(at least 4 of 7 draws fall on the k smallest): k = 1: 0.0103, k = 2: 0.0984; the tail is 0.025, and the case is symmetric
  expect(medianInterval([7, 1, 4, 2, 6, 3, 5], 0.95)).toEqual({ low: 2, high: 6 });
  // the same, wider and narrower: 99 % takes the ends, half the interval the third and the fifth (k = 3: 0.3456)
  expect(medianInterval([7, 1, 4, 2, 6, 3, 5], 0.99)).toEqual({ low: 1, high: 7 });
  expect(medianInterval([7, 1, 4, 2, 6, 3, 5], 0.5)).toEqual({ low: 3, high: 5 });
});
