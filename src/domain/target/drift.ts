/** One value of a measure, on a day. */
export type CheckValue = { readonly day: string; readonly value: number };

export type Drift = {
  readonly mean: number;
  /** natural limits of single values; null for fewer than five earlier checks */
  readonly limits: { readonly low: number; readonly high: number } | null;
  readonly state: "first" | "too few" | "steady" | "moved";
};

const FEWEST_EARLIER = 5;
/** Expected range of two values over their standard deviation (any table of control-chart constants). */
const D2 = 1.128;

/**
 * Natural limits of single values: mean ± 3 × mean moving range / 1.128 (W. A. Shewhart; NIST/SEMATECH e-Handbook, 6.3.2.2).
 */
export function individualLimits(values: readonly number[]): { mean: number; low: number; high: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const ranges = values.slice(1).map((value, index) => Math.abs(value - (values[index] ?? value)));
  const range = ranges.reduce((sum, each) => sum + each, 0) / ranges.length;
  return { mean, low: mean - (3 * range) / D2, high: mean + (3 * range) / D2 };
}

/**
 * Whether the latest check of a measure lies where the earlier ones let one expect it; in the order of their days.
 * @param least a difference that matters to nobody, in the measure's unit: what is out by no more has not moved
 */
export function driftOf(values: readonly CheckValue[], least = 0): Drift | null {
  const latest = values.at(-1);
  if (!latest) return null;
  const earlier = values.slice(0, -1).map(({ value }) => value);
  if (earlier.length === 0) return { mean: latest.value, limits: null, state: "first" };
  const mean = earlier.reduce((sum, value) => sum + value, 0) / earlier.length;
  if (earlier.length < FEWEST_EARLIER) return { mean, limits: null, state: "too few" };
  const { low, high } = individualLimits(earlier);
  return { mean, limits: { low, high }, state: latest.value < low - least || latest.value > high + least ? "moved" : "steady" };
}
