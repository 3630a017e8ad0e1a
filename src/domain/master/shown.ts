import type { AimLimit } from "../aim/aim.ts";
import { valueInWords } from "../aim/measure-words.ts";
import { isPresent, type Reading } from "../measure/reading.ts";
import { desirability } from "./desirability.ts";
import type { Measured } from "./judgement.ts";

/**
 * What a capture shows of one limit. Absent is never zero: it counts for nothing and says why. A
 * weak reading counts for nothing either, and so does a bound that leaves the bad side open, such
 * as “at most 6 cy/mm” where more is better; “at least 6 cy/mm” counts as 6.
 */
export function shown(limit: AimLimit, reading: Reading | undefined): Measured {
  const nothing = { measure: limit.measure, value: null, isBound: false, spread: null, desirability: null };
  if (reading === undefined) return { ...nothing, notShown: "it has not been measured yet" };
  if (!isPresent(reading)) return { ...nothing, notShown: reading.absent };
  if (reading.reliability === "weak") return { ...nothing, notShown: "what was read is only a weak hint" };
  if (reading.bound !== undefined && reading.bound !== SAFE_BOUND[limit.sense]) {
    const bound = `${reading.bound === "upper" ? "at most" : "at least"} ${valueInWords(limit.measure, reading.value)}`;
    return { ...nothing, notShown: `only a bound is known, ${bound}` };
  }
  return {
    measure: limit.measure,
    value: reading.value,
    isBound: reading.bound !== undefined,
    spread: reading.spread ?? null,
    desirability: desirability(limit, reading.value),
    notShown: null,
  };
}

/** The bound that can only hide something better. */
const SAFE_BOUND = { "at-least": "lower", "at-most": "upper", between: null } as const;
