import { seeded } from "../seeded.ts";

/** Two-sided quantiles of the normal distribution for the confidences offered (any table of the normal distribution). */
const QUANTILES = { 90: 1.644854, 95: 1.959964, 99: 2.575829 } as const;
export const CONFIDENCES = [90, 95, 99] as const;
export type Confidence = (typeof CONFIDENCES)[number];

export type SampleAim = {
  /** prints to draw from */
  readonly population: number;
  /** half-width of the interval that is wanted, percentage points */
  readonly marginPercent: number;
  readonly confidencePercent: Confidence;
  /** share that is expected; 50 asks for the most and so is safe */
  readonly expectedPercent: number;
};

export const SAMPLE_SIZE_SOURCE =
  "W. G. Cochran, Sampling Techniques, 3rd edition, 1977, section 4.4 (from memory); the same formula with chi-squared for z² in R. V. Krejcie and D. W. Morgan, Educational and Psychological Measurement 30, 1970, 607–610";

/**
 * How many prints to look at so that a share is known to within the margin: n₀ = z² p (1 − p) / e², corrected for a finite collection,
 * n = n₀ / (1 + (n₀ − 1) / N) (Cochran 1977, section 4.4). Not rounded; see sampleSize.
 */
export function exactSampleSize({ population, marginPercent, confidencePercent, expectedPercent }: SampleAim): number {
  const share = expectedPercent / 100;
  const endless = (QUANTILES[confidencePercent] ** 2 * share * (1 - share)) / (marginPercent / 100) ** 2;
  return endless / (1 + (endless - 1) / population);
}

/** The same, rounded up to whole prints, and never more than there are. */
export const sampleSize = (aim: SampleAim): number => Math.min(aim.population, Math.max(1, Math.ceil(exactSampleSize(aim))));

/**
 * Draws without replacement, each print as likely as any other (Fisher and Yates' shuffle, Durstenfeld's form). The same list in the same
 * order with the same seed gives the same sample.
 */
export function drawSample<T>(from: readonly T[], size: number, seed: number): T[] {
  const random = seeded(seed);
  const left = [...from];
  for (let drawn = 0; drawn < Math.min(size, left.length); drawn++) {
    const other = drawn + Math.floor(random() * (left.length - drawn));
    [left[drawn], left[other]] = [left[other] as T, left[drawn] as T];
  }
  return left.slice(0, size);
}

export const INTERVAL_SOURCE =
  "E. B. Wilson, Journal of the American Statistical Association 22, 1927, 209–212, as method 3 of R. G. Newcombe, Statistics in Medicine 17, 1998, 857–872; for a finite collection with the number looked at replaced by n (N − 1) / (N − n), which leaves no doubt when all were looked at (own)";

export type Share = { readonly percent: number; readonly lowPercent: number; readonly highPercent: number };

/**
 * A share seen in a sample with its score interval (Wilson 1927). The finite collection enters through the number of looks: the variance
 * of a share drawn without replacement is smaller by (N − n) / (N − 1), as if n (N − 1) / (N − n) had been drawn with replacement.
 * @param population null: as good as endless
 */
export function shareWithInterval(of: { seen: number; looked: number; population: number | null; confidencePercent: Confidence }): Share {
  const { seen, looked, population } = of;
  if (looked < 1 || seen < 0 || seen > looked) throw new RangeError(`no share of ${seen} in ${looked}`);
  const share = seen / looked;
  if (population !== null && looked >= population) return { percent: share * 100, lowPercent: share * 100, highPercent: share * 100 };
  const n = population === null ? looked : (looked * (population - 1)) / (population - looked);
  const z = QUANTILES[of.confidencePercent];
  const middle = share + z ** 2 / (2 * n);
  const half = z * Math.sqrt((share * (1 - share)) / n + z ** 2 / (4 * n ** 2));
  const whole = 1 + z ** 2 / n;
  return {
    percent: share * 100,
    lowPercent: (Math.max(0, middle - half) / whole) * 100,
    highPercent: (Math.min(whole, middle + half) / whole) * 100,
  };
}
