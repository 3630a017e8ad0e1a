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
      const { value } = reading;
      const met =
        (limit.requiredAtLeast === null || value >= limit.requiredAtLeast) &&
        (limit.requiredAtMost === null || value <= limit.requiredAtMost);
      return { limit, state: met ? "met" : "missed", value };
    });
}

/** What tones and colours rest on: with these met, a capture's own colours can be trusted within the limits. */
const TONE_AND_COLOUR = ["toneResponseDeltaL", "whiteBalanceDeltaAb", "colourAccuracyMeanDeltaE"];

/** True where the check shows all three and each meets its limit. */
export function provesToneAndColour(readings: readonly TargetReading[], limits: readonly AimLimit[]): boolean {
  const standings = standingsOf(readings, limits).filter(({ limit }) => TONE_AND_COLOUR.includes(limit.measure));
  return standings.length === TONE_AND_COLOUR.length && standings.every(({ state }) => state === "met");
}
