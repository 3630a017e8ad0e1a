import { median, quantile } from "../measure/robust.ts";
import { seeded } from "../seeded.ts";

const MOST_RESAMPLES = 4000;
const FEWEST_RESAMPLES = 500;
/** Bounds the time of one interval: about a tenth of a second. */
const MOST_DRAWS = 400_000;
const SEED = 1979;

/** The medians of samples drawn anew from the values, with replacement; the same in every run. */
export function resampledMedians(values: readonly number[], resamples = resamplesFor(values.length)): number[] {
  const random = seeded(SEED);
  return Array.from({ length: resamples }, () => median(values.map(() => values[Math.floor(random() * values.length)] ?? Number.NaN)));
}

const resamplesFor = (count: number): number =>
  Math.round(Math.max(FEWEST_RESAMPLES, Math.min(MOST_RESAMPLES, MOST_DRAWS / Math.max(1, count))));

/**
 * The percentile interval of a median: B. Efron, Annals of Statistics 7, 1979, 1–26, and Efron and R. J. Tibshirani, An Introduction to the
 * Bootstrap, 1993, chapter 13 (from memory). Narrower than the truth where values are few.
 */
export function medianInterval(values: readonly number[], confidence: number): { low: number; high: number } {
  const medians = resampledMedians(values);
  const tail = (1 - confidence) / 2;
  return { low: quantile(medians, tail), high: quantile(medians, 1 - tail) };
}
