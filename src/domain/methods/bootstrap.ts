import { median, quantile } from "../measure/robust.ts";
import { seeded } from "../seeded.ts";

const RESAMPLES = 4000;
const SEED = 1979;

/** The medians of samples drawn anew from the values, with replacement; the same in every run. */
export function resampledMedians(values: readonly number[], resamples = RESAMPLES): number[] {
  const random = seeded(SEED);
  return Array.from({ length: resamples }, () => median(values.map(() => values[Math.floor(random() * values.length)] ?? Number.NaN)));
}

/**
 * The percentile interval of a median: B. Efron, Annals of Statistics 7, 1979, 1–26, and Efron and R. J. Tibshirani, An Introduction to the
 * Bootstrap, 1993, chapter 13 (from memory). Narrower than the truth where values are few.
 */
export function medianInterval(values: readonly number[], confidence: number): { low: number; high: number } {
  const medians = resampledMedians(values);
  const tail = (1 - confidence) / 2;
  return { low: quantile(medians, tail), high: quantile(medians, 1 - tail) };
}
