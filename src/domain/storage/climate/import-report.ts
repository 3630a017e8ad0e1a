import { ROW_PROBLEMS } from "./read-row.ts";

/** Rows of each kind that are named one by one; the rest is counted. */
export const MOST_NAMED = 20;

export type NamedRow = { readonly row: number; readonly text: string };

export const HELD_PROBLEMS = {
  ...ROW_PROBLEMS,
  "twice-same": "This time stands in the file already, with the same values: kept once.",
  "twice-different": "This time stands in the file already, with other values: the first row was kept.",
  "held-same": "A reading of this time was in the place already, with the same values.",
  "held-different": "A reading of this time was in the place already, with other values: the earlier one was kept.",
} as const;
export type ImportProblem = keyof typeof HELD_PROBLEMS;

export type ProblemCount = { readonly problem: ImportProblem; readonly count: number; readonly named: readonly NamedRow[] };

/** A time without readings: from the row before it to the row after it. */
export type Gap = { readonly afterRow: number; readonly beforeRow: number; readonly fromSeconds: number; readonly seconds: number };

/** What became of a file's rows. */
export type ImportReport = {
  readonly rows: number;
  /** readings that are in the place now and were not before */
  readonly kept: number;
  readonly firstSeconds: number;
  readonly lastSeconds: number;
  /** the usual distance between two readings; null with one reading */
  readonly usualStepSeconds: number | null;
  readonly problems: readonly ProblemCount[];
  readonly gapCount: number;
  readonly longestGapSeconds: number;
  /** the longest ones, in order of time */
  readonly gaps: readonly Gap[];
};

/** Counts problems and names the first rows of each kind. */
export class ProblemTally {
  readonly #of = new Map<ImportProblem, { count: number; named: NamedRow[] }>();

  add(problem: ImportProblem, row: number, text: string): void {
    const held = this.#of.get(problem) ?? { count: 0, named: [] };
    held.count++;
    if (held.named.length < MOST_NAMED) held.named.push({ row, text: text.slice(0, 120) });
    this.#of.set(problem, held);
  }

  /** Many of a kind at once, of which only the first are named. */
  addMany(problem: ImportProblem, count: number, named: readonly NamedRow[]): void {
    if (count > 0) this.#of.set(problem, { count, named: named.slice(0, MOST_NAMED) });
  }

  list(): ProblemCount[] {
    return [...this.#of].map(([problem, { count, named }]) => ({ problem, count, named }));
  }
}

/** “1 hour 30 minutes”, “12 days” */
export function durationInWords(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  if (seconds < 90) return `${Math.round(seconds)} seconds`;
  if (minutes < 60) return `${minutes} minutes`;
  const hours = Math.floor(minutes / 60);
  if (hours < 48) return `${hours} ${hours === 1 ? "hour" : "hours"}${minutes % 60 === 0 ? "" : ` ${minutes % 60} minutes`}`;
  return `${Math.round(hours / 24)} days`;
}
