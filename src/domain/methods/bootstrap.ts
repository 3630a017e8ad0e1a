import { quantile } from "../measure/numbers/robust.ts";
import { seeded } from "../seeded.ts";

const MOST_RESAMPLES = 4000;
const FEWEST_RESAMPLES = 500;
/** Bounds the time of one interval: about a tenth of a second. */
const MOST_DRAWS = 400_000;
const SEED = 1979;

/** The medians of samples drawn anew from the values, with replacement; the same in every run. */
export function resampledMedians(values: readonly number[], resamples = resamplesFor(values.length)): number[] {
  const random = seeded(SEED);
  const sorted = Float64Array.from(values).sort();
  const { length } = sorted;
  // how often each value was drawn is enough: they lie in order, so that nothing is sorted anew
  const times = new Uint32Array(length);
  return Array.from({ length: resamples }, () => {
    times.fill(0);
    for (let draw = 0; draw < length; draw++) {
      const at = Math.floor(random() * length);
      times[at] = (times[at] as number) + 1;
    }
    return (drawnAt((length - 1) >> 1, sorted, times) + drawnAt(length >> 1, sorted, times)) / 2;
  });
}

/** The value at a rank, from 0, among those drawn; NaN where there is none. */
function drawnAt(rank: number, sorted: Float64Array, times: Uint32Array): number {
  let at = 0;
  for (let seen = times[0] ?? 0; seen <= rank && at < sorted.length; seen += times[at] ?? 0) at++;
  return sorted[at] ?? Number.NaN;
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
