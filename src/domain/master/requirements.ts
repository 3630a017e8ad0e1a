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
 * bound proves only one side: “at most 380 ppi” can miss 392 ppi, and can never show that it is met; “at least 380 ppi” shows neither.
 */
export function shortfall(limit: AimLimit, measured: Measured): Shortfall | null {
  return end("at-least", limit.requiredAtLeast, measured) ?? end("at-most", limit.requiredAtMost, measured);
}

/** Whether something was read of what a limit requires, but only a bound that proves neither that it is met nor that it is missed. */
export function isLeftOpen(limit: AimLimit, measured: Measured): boolean {
  const ends = [standingAt("at-least", limit.requiredAtLeast, measured), standingAt("at-most", limit.requiredAtMost, measured)];
  return ends.includes("open") && !ends.includes("missed");
}

function end(sense: Shortfall["sense"], required: number | null, measured: Measured): Shortfall | null {
  const { measure, value, bound, notShown } = measured;
  if (required === null) return null;
  const state = standingAt(sense, required, measured);
  if (state === "missed") return { measure, sense, required, value, bound, notShown: null };
  if (state === "met" || ONLY_WHERE_READ.has(measure)) return null;
  return {
    measure,
    sense,
    required,
    value: state === "open" ? value : null,
    bound: state === "open" ? bound : null,
    notShown: notShown ?? `only a bound is known, ${boundInWords(measure, value ?? 0, bound)}`,
  };
}

/** Whether what is required is neither shown to be met nor to be missed, though a bound is known. Choices made before such bounds were kept have none. */
export const isOpenShortfall = ({ value, notShown }: Pick<Shortfall, "value" | "notShown">): boolean => value !== null && notShown !== null;

/** How a reading stands to one end of what is required; null where nothing is required or nothing was read. */
function standingAt(sense: Shortfall["sense"], required: number | null, { value, bound }: Measured): "met" | "missed" | "open" | null {
  if (required === null || value === null) return null;
  const isMet = sense === "at-least" ? value >= required : value <= required;
  const [provesMet, provesMissed] = sense === "at-least" ? ["lower", "upper"] : ["upper", "lower"];
  if (bound !== null && bound !== (isMet ? provesMet : provesMissed)) return "open";
  return isMet ? "met" : "missed";
}

/** A shortfall as part of a sentence, e.g. “sampling is 310 ppi where at least 392 ppi are asked”. */
export function shortfallInWords({ measure, sense, required, value, bound, notShown }: Shortfall): string {
  if (measure === "lossless" && value !== null && notShown === null) return "its compression throws values away";
  if (measure === "sidesSeen" && value !== null && notShown === null) return `only ${value} of the 4 sides of the sheet are seen`;
  const name = measureInWords(measure);
  const verb = name.endsWith("s") ? "are" : "is";
  if (value === null || notShown !== null) return `${name} ${verb} not shown (${notShown ?? "no reason is known"})`;
  const [read, limit] = valuesApart(measure, { value, bound }, { value: required, bound: null });
  return `${name} ${verb} ${read} where ${sense === "at-least" ? "at least" : "at most"} ${limit} is asked`;
}
