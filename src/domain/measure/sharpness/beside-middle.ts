import { median } from "../numbers/robust.ts";
import type { BlurBetween } from "./blur-between.ts";
import { falloffOf, type Lie } from "./falloff-on-sheet.ts";

/** What the blur of one capture has more than the middle one of all, of two than the other, and the share of resolution that it loses by that. */
export type BesideMiddle = {
  /** terms of its surface (smooth-surface.ts), the first its own mean variance, mm² */
  readonly own: readonly number[];
  /** their covariance, row by row */
  readonly covariance: readonly number[];
  readonly share: number;
  /** of the share, by the scatter of the tiles alone */
  readonly spread: number;
};

/**
 * Each term of the surface less the middle one of that term, the first by the capture's level. Every surface tells by how much the variance of
 * its capture differs from the mean of all n, whose scatter they share: that of the differences is not the sum of theirs. Tiles of captures
 * that scatter each for itself have e(i) - ē in the surface of capture i, and e(i) less the mean of the other captures is n / (n - 1) times that:
 *
 *   covariance of the difference = (n / (n - 1))² × covariance of the surface
 *
 * For two, whose surfaces mirror each other, that is what is told: 4 times the covariance. For more the middle one stands for the mean of the others: beside
 * a capture that is out of the middle of three which scatter alike, its difference has 1 + (1 - 1/π) times the variance of one instead of 1 + 1/2,
 * so that a twentieth too little is told; in the middle itself a capture scatters less than is told.
 * Source: JCGM 100:2008, 5.2.2, for correlated quantities; 1 - 1/π: the variance of the larger of two normal values, from memory.
 *
 * @param level of the capture, mm² (levelsOf in blur-between.ts)
 */
export function besideMiddle(index: number, { terms, covariance }: BlurBetween, level: number, lie: Lie): BesideMiddle {
  const count = terms.length;
  const own = (terms[index] as readonly number[]).map((_, at) =>
    at === 0
      ? level
      : lessMiddle(
          terms.map((each) => each[at] as number),
          index,
        ),
  );
  const ofDifference = (covariance[index] as readonly number[]).map((value) => (count / (count - 1)) ** 2 * value);
  const shareOf = (each: readonly number[]) => falloffOf(each, lie).share;
  return { own, covariance: ofDifference, share: shareOf(own), spread: spreadOf(own, ofDifference, shareOf) };
}

/** What one of the values has more than the middle one, of two than the other. */
export const lessMiddle = (values: readonly number[], index: number) =>
  (values[index] as number) - (values.length === 2 ? (values[1 - index] as number) : median(values));

/** Square root of gᵀ C g, with g the slopes of a function of the terms (JCGM 100:2008, 5.2.2). */
export function spreadOf(terms: readonly number[], covariance: readonly number[], of: (terms: readonly number[]) => number): number {
  const step = 1e-4 * Math.abs(terms[0] as number);
  const slopes = terms.map((_, index) => {
    const moved = (by: number) => of(terms.map((value, at) => (at === index ? value + by : value)));
    return (moved(step) - moved(-step)) / (2 * step);
  });
  let sum = 0;
  for (const [i, one] of slopes.entries())
    for (const [j, other] of slopes.entries()) sum += one * other * (covariance[i * slopes.length + j] as number);
  return Math.sqrt(Math.max(0, sum));
}
