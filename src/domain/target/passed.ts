import type { AimLimit } from "../aim/aim.ts";
import type { TargetReading } from "./read-target.ts";

/** How a limit that only a target proves stands after a check. */
export type LimitStanding = { readonly limit: AimLimit; readonly state: "met" | "missed" | "not shown"; readonly value: number | null };

export function standingsOf(readings: readonly TargetReading[], limits: readonly AimLimit[]): LimitStanding[] {
  return limits
    .filter(({ provedBy }) => provedBy === "target")
    .map((limit) => {
      const reading = readings.find(({ name }) => name === limit.measure);
      if (!reading || "absent" in reading) return { limit, state: "not shown", value: null };
      const { value, bound } = reading;
      const met =
        (limit.requiredAtLeast === null || value >= limit.requiredAtLeast) &&
        (limit.requiredAtMost === null || value <= limit.requiredAtMost);
      return { limit, state: isOpen(limit, value, bound) ? "not shown" : met ? "met" : "missed", value };
    });
}

/** A bound proves one side only: "at least 0.5" cannot show that at most 3 is met, nor "at least 30" that at least 40 is missed. */
function isOpen({ requiredAtLeast, requiredAtMost }: AimLimit, value: number, bound: "lower" | "upper" | undefined): boolean {
  if (bound === undefined) return false;
  const least = requiredAtLeast ?? Number.NEGATIVE_INFINITY;
  const most = requiredAtMost ?? Number.POSITIVE_INFINITY;
  const isProvedMissed = bound === "lower" ? value > most : value < least;
  const isProvedMet = bound === "lower" ? requiredAtMost === null && value >= least : requiredAtLeast === null && value <= most;
  return !isProvedMissed && !isProvedMet;
}

/** What tones and colours rest on: with these met, a capture's own colours can be trusted within the limits. */
const TONE_AND_COLOUR = ["toneResponseDeltaL", "whiteBalanceDeltaAb", "colourAccuracyMeanDeltaE"];

/** True where the check shows all three and each meets its limit. */
export function provesToneAndColour(readings: readonly TargetReading[], limits: readonly AimLimit[]): boolean {
  const standings = standingsOf(readings, limits).filter(({ limit }) => TONE_AND_COLOUR.includes(limit.measure));
  return standings.length === TONE_AND_COLOUR.length && standings.every(({ state }) => state === "met");
}
