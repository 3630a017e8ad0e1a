import { isPresent, type Reading } from "../measure/reading.ts";
import type { TargetReading } from "../target/read-target.ts";
import type { Level, LevelRow, LevelTable } from "./published-levels.ts";
import { isPrintMeasure } from "./target-measures.ts";

/** Coverage factor of an expanded uncertainty with a level of confidence of about 95 % (JCGM 100:2008, 6.3.3). */
const COVERAGE = 2;

/** How one row of a table of levels stands for a capture. */
export type RowStanding = {
  readonly row: LevelRow;
  readonly standing:
    | { readonly state: "level"; readonly level: Level; readonly figure: number; readonly value: number }
    | { readonly state: "below"; readonly value: number }
    | { readonly state: "not-read"; readonly reason: string }
    | { readonly state: "needs-target" };
};

/**
 * Which level each figure of a capture would be. Levels rate systems of capture on targets: only what a capture of the print
 * itself proves (its sampling, from the size of the print, and the depth of its file) gets a level, by the less good end of
 * its expanded uncertainty; all else needs a target check of the set-up. A table's level would be the lowest of all its rows.
 * @param checked what a target check of the set-up read; empty where there is none
 */
export function levelsReached(table: LevelTable, readings: readonly Reading[], checked: readonly TargetReading[] = []): RowStanding[] {
  return table.rows.map((row) => ({ row, standing: standingOf(row, table.levels, readings, checked) }));
}

function standingOf(
  row: LevelRow,
  levels: readonly Level[],
  readings: readonly Reading[],
  checked: readonly TargetReading[],
): RowStanding["standing"] {
  if (!isPrintMeasure(row.measure)) {
    const proved = checked.find(({ name }) => name === row.measure);
    if (!proved) return { state: "needs-target" };
    if ("absent" in proved) return { state: "not-read", reason: proved.absent };
    if (isOpen(row, proved.bound)) return ONLY_A_BOUND;
    return reached(row, levels, proved.value, proved.value);
  }
  const reading = readings.find(({ name }) => name === row.measure);
  if (!isPresent(reading)) return { state: "not-read", reason: reading?.absent ?? "not measured yet" };
  if (reading.reliability === "weak") return { state: "not-read", reason: "read too weakly to prove a level" };
  if (isOpen(row, reading.bound)) return ONLY_A_BOUND;
  const { value } = reading;
  const doubted = value + (row.sense === "at-least" ? -1 : 1) * COVERAGE * (reading.spread ?? 0);
  return reached(row, levels, value, doubted);
}

const ONLY_A_BOUND = { state: "not-read", reason: "only a bound of it is known" } as const;

/** A figure that may truly be worse than what was read proves no level. */
const isOpen = ({ sense }: LevelRow, bound: "lower" | "upper" | undefined): boolean => bound === (sense === "at-least" ? "upper" : "lower");

function reached(row: LevelRow, levels: readonly Level[], value: number, doubted: number): RowStanding["standing"] {
  const passes = (figure: number | null) => figure !== null && (row.sense === "at-least" ? doubted >= figure : doubted <= figure);
  const highest = row.figures.findLastIndex(passes);
  const level = levels[highest];
  return level ? { state: "level", level, figure: row.figures[highest] as number, value } : { state: "below", value };
}
