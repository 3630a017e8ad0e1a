/** Readings of one place in a stretch of time, in order of time; NaN where a reading has no such value. Never altered. */
export type ClimateSeries = {
  /** the stretch asked for, in seconds since 1970-01-01T00:00:00Z; `to` does not belong to it */
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly atSeconds: Float64Array;
  readonly temperatureC: Float32Array;
  readonly humidityPercent: Float32Array;
};

/** A figure, or the reason why the readings do not allow it. */
export type Figure<T> = { readonly known: true; readonly value: T } | { readonly known: false; readonly reason: string };

export const known = <T>(value: T): Figure<T> => ({ known: true, value });
export const notKnown = (reason: string): { readonly known: false; readonly reason: string } => ({ known: false, reason });

export const HOUR_SECONDS = 3600;
export const DAY_SECONDS = 86_400;

/** The middle of the distances between neighbouring readings, in seconds; null with fewer than two readings. */
export function usualStepSeconds({ atSeconds }: Pick<ClimateSeries, "atSeconds">): number | null {
  if (atSeconds.length < 2) return null;
  const steps = new Float64Array(atSeconds.length - 1);
  for (let i = 0; i < steps.length; i++) steps[i] = (atSeconds[i + 1] ?? 0) - (atSeconds[i] ?? 0);
  steps.sort();
  return steps[steps.length >> 1] ?? null;
}

/**
 * For how long each reading speaks, in seconds: until the next one where that comes within twice the usual distance and within a
 * day; else for one usual distance, at most a day, and then there is a gap. A reading alone speaks for an hour. (own rule)
 * Time that no reading speaks for is never counted as good.
 */
export function heldSeconds(series: ClimateSeries): Float64Array {
  const { atSeconds, toSeconds } = series;
  const usual = Math.min(usualStepSeconds(series) ?? HOUR_SECONDS, DAY_SECONDS);
  const longest = Math.min(2 * usual, DAY_SECONDS);
  return atSeconds.map((at, i) => {
    const step = (atSeconds[i + 1] ?? Number.POSITIVE_INFINITY) - at;
    return Math.max(0, Math.min(step <= longest ? step : usual, toSeconds - at));
  });
}

/** The share of the stretch asked for in which both temperature and humidity are known, 0 to 1. */
export function coveredShare(series: ClimateSeries, held = heldSeconds(series)): number {
  let covered = 0;
  for (let i = 0; i < held.length; i++) {
    if (Number.isNaN(series.temperatureC[i]) || Number.isNaN(series.humidityPercent[i])) continue;
    covered += held[i] ?? 0;
  }
  const length = series.toSeconds - series.fromSeconds;
  return length > 0 ? Math.min(1, covered / length) : 0;
}
