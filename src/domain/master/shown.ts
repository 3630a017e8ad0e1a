import type { AimLimit } from "../aim/aim.ts";
import { isPresent, type Reading } from "../measure/reading.ts";
import { desirability } from "./desirability.ts";
import type { Measured } from "./judgement.ts";

/**
 * What a capture shows of one limit. Absent is never zero: it counts for nothing and says why, and
 * so does a weak reading. A bound counts at its value when captures are compared, since the same
 * method read them all.
 */
export function shown(limit: AimLimit, reading: Reading | undefined): Measured {
  const nothing = { measure: limit.measure, value: null, bound: null, spread: null, desirability: null };
  if (reading === undefined) return { ...nothing, notShown: "it has not been measured yet" };
  if (!isPresent(reading)) return { ...nothing, notShown: reading.absent };
  if (reading.reliability === "weak") return { ...nothing, notShown: `only a weak hint was read${because(reading.note)}` };
  return {
    measure: limit.measure,
    value: reading.value,
    bound: reading.bound ?? null,
    spread: reading.spread ?? null,
    desirability: desirability(limit, reading.value),
    notShown: null,
  };
}

/** A note as the end of a sentence. */
const because = (note: string | undefined): string =>
  note === undefined ? "" : `: ${note.charAt(0).toLowerCase()}${note.slice(1).replace(/\.$/, "")}`;
