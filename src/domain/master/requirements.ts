import type { AimLimit } from "../aim/aim.ts";
import { boundInWords, measureInWords, valuesApart } from "../aim/measure-words.ts";
import type { Measured, Shortfall } from "./judgement.ts";

/**
 * These need a plain border or a second capture, which a print may not have. Where they are read
 * they must be met; where they cannot be read, the capture is not to blame.
 */
const ONLY_WHERE_READ: ReadonlySet<string> = new Set(["glareAreaPercent", "borderGlarePercent"]);

/**
 * What a limit requires and a capture does not meet, or does not show; null when all is well. A
 * bound proves only one side: “at most 400 ppi” can miss 392 ppi, and can never show that it is met.
 */
export function shortfall(limit: AimLimit, measured: Measured): Shortfall | null {
  return end("at-least", limit.requiredAtLeast, measured) ?? end("at-most", limit.requiredAtMost, measured);
}

function end(sense: Shortfall["sense"], required: number | null, { measure, value, bound, notShown }: Measured): Shortfall | null {
  if (required === null) return null;
  const isMissed = value !== null && (sense === "at-least" ? value < required : value > required);
  if (isMissed) return { measure, sense, required, value, bound, notShown: null };
  const isOpen = bound === (sense === "at-least" ? "upper" : "lower");
  if ((value !== null && !isOpen) || ONLY_WHERE_READ.has(measure)) return null;
  return {
    measure,
    sense,
    required,
    value: null,
    bound: null,
    notShown: notShown ?? `only a bound is known, ${boundInWords(measure, value ?? 0, bound)}`,
  };
}

/** A shortfall as part of a sentence, e.g. “sampling is 310 ppi where at least 392 ppi are asked”. */
export function shortfallInWords({ measure, sense, required, value, bound, notShown }: Shortfall): string {
  if (measure === "lossless" && value !== null) return "its compression throws values away";
  if (measure === "sidesSeen" && value !== null) return `only ${value} of the 4 sides of the sheet are seen`;
  const name = measureInWords(measure);
  const verb = name.endsWith("s") ? "are" : "is";
  if (value === null) return `${name} ${verb} not shown (${notShown ?? "no reason is known"})`;
  const [read, limit] = valuesApart(measure, { value, bound }, { value: required, bound: null });
  return `${name} ${verb} ${read} where ${sense === "at-least" ? "at least" : "at most"} ${limit} is asked`;
}
