import { median } from "../measure/numbers/robust.ts";

/** Bytes of an uncompressed picture in three colours; what a lossless compression saves depends on the picture and is not promised. */
export const fileBytes = (widthPx: number, heightPx: number, bitsPerSample: 8 | 16): number => widthPx * heightPx * 3 * (bitsPerSample / 8);

export type Effort = {
  readonly prints: number;
  readonly minutesPerPrint: number;
  readonly minutesToSetUp: number;
  /** what the equipment costs this job; null where nobody said */
  readonly price: number | null;
  /** what an hour of work costs; null where it costs nothing or nobody said */
  readonly pricePerHour: number | null;
};

export type Spent = {
  readonly hours: number;
  readonly costPerPrint: number | null;
  readonly costOfAll: number | null;
  /** what nobody said the price of, and so is not in the cost */
  readonly leftOut: "equipment" | "work" | null;
};

/** Hours of work for all prints, and what one print costs: the equipment shared out, and the work. */
export function effort(of: Effort): Spent {
  const hours = (of.minutesToSetUp + of.prints * of.minutesPerPrint) / 60;
  if (of.price === null && of.pricePerHour === null) return { hours, costPerPrint: null, costOfAll: null, leftOut: null };
  const costOfAll = (of.price ?? 0) + hours * (of.pricePerHour ?? 0);
  const leftOut = of.price === null ? "equipment" : of.pricePerHour === null ? "work" : null;
  return { hours, costOfAll, costPerPrint: of.prints === 0 ? null : costOfAll / of.prints, leftOut };
}

/** Longer than this, and somebody was at lunch (own rule). */
const LONGEST_PAUSE_MINUTES = 30;
const FEWEST_STEPS = 5;

/**
 * Minutes from one print to the next as the files themselves tell: the median step, pauses left out.
 * @param takenAt moments as ISO 8601 text of the first capture of each print, in any order
 * @returns null where fewer than five steps are left to judge by
 */
export function minutesBetweenPrints(takenAt: readonly string[]): { minutes: number; steps: number } | null {
  const moments = takenAt.map((text) => Date.parse(text) / 60_000).filter((minute) => Number.isFinite(minute));
  const inOrder = moments.toSorted((a, b) => a - b);
  const steps = inOrder
    .slice(1)
    .map((moment, index) => moment - (inOrder[index] ?? moment))
    .filter((step) => step > 0 && step <= LONGEST_PAUSE_MINUTES);
  return steps.length < FEWEST_STEPS ? null : { minutes: median(steps), steps: steps.length };
}
