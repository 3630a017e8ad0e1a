import type { AllowedClimate, ClimateLimit } from "./published-limits.ts";
import { type ClimateSeries, heldSeconds } from "./series.ts";

export type Excursion = { readonly fromSeconds: number; readonly seconds: number };

/** How the stretch divides; the three shares add up to 1. */
export type TimeOutside = {
  readonly outsideShare: number;
  readonly insideShare: number;
  /** without a reading, or with one that does not tell: never counted as good */
  readonly unknownShare: number;
  /** the longest time without a break outside; a gap in the readings ends it, so it may have lasted longer. Null: never outside */
  readonly longest: Excursion | null;
};

/**
 * The shares of time outside and inside a published limit, 0 to 1 of the stretch asked for, and the longest excursion.
 * A reading without humidity is outside where its temperature alone is, and else not known; and the other way round.
 */
export function timeOutside(series: ClimateSeries, limit: ClimateLimit, held = heldSeconds(series)): TimeOutside {
  const { atSeconds, temperatureC, humidityPercent } = series;
  const length = series.toSeconds - series.fromSeconds;
  let outside = 0;
  let inside = 0;
  let longest: Excursion | null = null;
  let began: number | null = null;
  let until = 0;
  for (let i = 0; i < held.length; i++) {
    const at = atSeconds[i] ?? 0;
    const seconds = held[i] ?? 0;
    const state = stateOf(temperatureC[i] ?? Number.NaN, humidityPercent[i] ?? Number.NaN, limit.allowed);
    if (state === "inside") inside += seconds;
    if (state !== "outside" || (began !== null && at > until + 1)) began = null;
    if (state !== "outside") continue;
    outside += seconds;
    began ??= at;
    until = at + seconds;
    if (longest === null || until - began > longest.seconds) longest = { fromSeconds: began, seconds: until - began };
  }
  const share = (seconds: number) => (length > 0 ? seconds / length : 0);
  return {
    outsideShare: share(outside),
    insideShare: share(inside),
    unknownShare: Math.max(0, 1 - share(outside + inside)),
    longest,
  };
}

function stateOf(temperatureC: number, humidityPercent: number, allowed: readonly AllowedClimate[]): "inside" | "outside" | "unknown" {
  let mayBeInside = false;
  for (const climate of allowed) {
    const temperature = isBetween(temperatureC, climate.leastC, climate.mostC);
    const humidity = isBetween(humidityPercent, climate.leastPercent, climate.mostPercent);
    if (temperature === true && humidity === true) return "inside";
    if (temperature !== false && humidity !== false) mayBeInside = true;
  }
  return mayBeInside ? "unknown" : "outside";
}

/** Null where the value is missing and a bound asks for it. */
function isBetween(value: number, least: number | null, most: number | null): boolean | null {
  if (least === null && most === null) return true;
  if (Number.isNaN(value)) return null;
  return value >= (least ?? Number.NEGATIVE_INFINITY) && value <= (most ?? Number.POSITIVE_INFINITY);
}
