import type { MeasureName } from "../measure/catalogue.ts";
import type { AimLimit, SourceStatus } from "./aim.ts";
import type { TargetMeasureName } from "./target-measures.ts";

/** The width of the range in which an aim counts a measure. */
export function countedRange({ lowest, best, highest }: Pick<AimLimit, "lowest" | "best" | "highest">): number {
  return Math.max(Math.abs(best - (lowest ?? best)), Math.abs((highest ?? best) - best));
}

type Origin = readonly [status: SourceStatus, source: string];

/** More is better: desirability 0 at `lowest`, 1 at `best`. */
export const atLeast = (
  measure: MeasureName,
  ends: { lowest: number; best: number; required?: number },
  weight: number,
  [sourceStatus, source]: Origin,
): AimLimit => ({
  measure,
  sense: "at-least",
  lowest: ends.lowest,
  best: ends.best,
  highest: null,
  weight,
  requiredAtLeast: ends.required ?? null,
  requiredAtMost: null,
  provedBy: "print",
  source,
  sourceStatus,
});

/** Less is better: desirability 1 at `best`, 0 at `highest`. */
export const atMost = (
  measure: MeasureName,
  ends: { best: number; highest: number; required?: number },
  weight: number,
  [sourceStatus, source]: Origin,
): AimLimit => ({
  measure,
  sense: "at-most",
  lowest: null,
  best: ends.best,
  highest: ends.highest,
  weight,
  requiredAtLeast: null,
  requiredAtMost: ends.required ?? null,
  provedBy: "print",
  source,
  sourceStatus,
});

/** What a table asks of the set-up, at most; it decides nothing between captures of a print. */
export const targetAtMost = (measure: TargetMeasureName, most: number, [sourceStatus, source]: Origin): AimLimit => ({
  measure,
  sense: "at-most",
  lowest: null,
  best: 0,
  highest: 2 * most,
  weight: 0,
  requiredAtLeast: null,
  requiredAtMost: most,
  provedBy: "target",
  source,
  sourceStatus,
});

/** What a table asks of the set-up, at least, and where the table has one, an upper end too. */
export const targetAtLeast = (
  measure: TargetMeasureName,
  least: number,
  [sourceStatus, source]: Origin,
  most: number | null = null,
): AimLimit => ({
  measure,
  sense: most === null ? "at-least" : "between",
  lowest: 0,
  best: most === null ? least : (least + most) / 2,
  highest: most === null ? null : most + least,
  weight: 0,
  requiredAtLeast: least,
  requiredAtMost: most,
  provedBy: "target",
  source,
  sourceStatus,
});

/** The table that ready-made aims take figures from, as their sources name it. */
export const FADGI_2016 = "FADGI 2016, table Prints and Photographs";
