import { type ClimateSeries, DAY_SECONDS, heldSeconds } from "./series.ts";

/** What one quantity did on one day (UTC). */
export type DayOf = { readonly least: number; readonly most: number; readonly mean: number; readonly heldSeconds: number };

export type ClimateDay = {
  /** its begin, seconds since 1970-01-01T00:00:00Z */
  readonly startSeconds: number;
  readonly temperatureC: DayOf | null;
  readonly humidityPercent: DayOf | null;
};

/** A day speaks for itself when readings cover this much of it (own rule). */
export const FULL_DAY_SHARE = 0.75;

export const isFull = (day: DayOf | null): day is DayOf => day !== null && day.heldSeconds >= FULL_DAY_SHARE * DAY_SECONDS;

/** The days that have readings, in order. Means are weighted by how long each reading speaks. */
export const climateDays = (series: ClimateSeries, held = heldSeconds(series)): ClimateDay[] => climateStretches(series, DAY_SECONDS, held);

/** The same for stretches of another length, such as the hours of a week or the weeks of ten years. */
export function climateStretches(series: ClimateSeries, lengthSeconds: number, held = heldSeconds(series)): ClimateDay[] {
  const days: ClimateDay[] = [];
  const { atSeconds } = series;
  for (let start = 0; start < atSeconds.length; ) {
    const day = Math.floor((atSeconds[start] ?? 0) / lengthSeconds);
    let end = start;
    while (end < atSeconds.length && Math.floor((atSeconds[end] ?? 0) / lengthSeconds) === day) end++;
    days.push({
      startSeconds: day * lengthSeconds,
      temperatureC: dayOf(series.temperatureC, held, start, end),
      humidityPercent: dayOf(series.humidityPercent, held, start, end),
    });
    start = end;
  }
  return days;
}

function dayOf(values: Float32Array, held: Float64Array, start: number, end: number): DayOf | null {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  let sum = 0;
  let seconds = 0;
  for (let i = start; i < end; i++) {
    const value = values[i] ?? Number.NaN;
    if (Number.isNaN(value)) continue;
    least = Math.min(least, value);
    most = Math.max(most, value);
    sum += value * (held[i] ?? 0);
    seconds += held[i] ?? 0;
  }
  return seconds === 0 ? null : { least, most, mean: sum / seconds, heldSeconds: seconds };
}
