import type { AimLimit } from "#domain/aim/aim.ts";
import { valueInWords } from "#domain/aim/measure-words.ts";
import { describeMeasure } from "#domain/aim/target-measures.ts";
import type { Verdict } from "#domain/master/judgement.ts";
import { isLeftOpen } from "#domain/master/requirements.ts";

export const labelOf = (measure: string): string => describeMeasure(measure)?.label ?? measure;

/** What an aim asks of a measure: what is required, or else from where to where it counts. */
export function limitInWords(limit: AimLimit): string {
  const { measure, requiredAtLeast, requiredAtMost, lowest, best, highest } = limit;
  if (measure === "lossless" && requiredAtLeast === 1) return "yes";
  const required = [
    ...(requiredAtLeast === null ? [] : [`at least ${valueInWords(measure, requiredAtLeast)}`]),
    ...(requiredAtMost === null ? [] : [`at most ${valueInWords(measure, requiredAtMost)}`]),
  ];
  if (required.length > 0) return required.join(", ");
  if (measure === "lossless") return "better if yes";
  const from = limit.sense === "at-most" ? highest : lowest;
  return from === null
    ? `best at ${valueInWords(measure, best)}`
    : `counts from ${valueInWords(measure, from)} to ${valueInWords(measure, best)}`;
}

export type Standing = { readonly state: "met" | "short" | "open" | "counts" | "not-shown"; readonly words: string };

const SHORT: Standing = { state: "short", words: "short of the aim" };
const NOT_SHOWN: Standing = { state: "not-shown", words: "required, but not shown" };
const OPEN: Standing = { state: "open", words: "whether it meets the aim cannot be told" };

/** How one capture stands to one limit; null where the aim does not ask for the measure or nothing was judged yet. */
export function standing(limit: AimLimit | undefined, verdict: Verdict | undefined): Standing | null {
  if (!limit || !verdict || limit.provedBy === "target") return null;
  const shortfall = verdict.shortfalls.find((each) => each.measure === limit.measure);
  const measured = verdict.measures.find((each) => each.measure === limit.measure);
  if (measured && isLeftOpen(limit, measured)) return OPEN;
  if (shortfall) return shortfall.value === null ? NOT_SHOWN : SHORT;
  if (!measured || measured.value === null) return null;
  if (limit.requiredAtLeast !== null || limit.requiredAtMost !== null) return { state: "met", words: "meets the aim" };
  if (measured.desirability === null || limit.weight === 0) return null;
  return { state: "counts", words: `counts ${Math.round(measured.desirability * 100)} of 100` };
}
