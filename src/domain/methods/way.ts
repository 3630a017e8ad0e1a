import type { AimLimit } from "../aim/aim.ts";

/** What ways of capturing are told apart by. */
export const WAYS_BY = ["method", "set-up"] as const;
export type WaysBy = (typeof WAYS_BY)[number];

/** Captures that say nothing of what ways are told apart by. */
export function leftOutInWords(count: number, by: WaysBy): string {
  const says =
    by === "method" ? ["says nothing of how it was made", "say nothing of how they were made"] : ["names no set-up", "name no set-up"];
  return count === 1 ? `1 capture ${says[0]}` : `${count} captures ${says[1]}`;
}

/** A capture as the comparison of ways of capturing needs it. */
export type JudgedCapture = {
  readonly printId: number;
  readonly side: "front" | "back";
  /** the method, or the set-up, by a key */
  readonly way: string;
  /** null where the capture names none */
  readonly setUpId: number | null;
  /** it meets every requirement of the purpose */
  readonly meets: boolean;
  /** by measure; what the capture does not show is not in it */
  readonly values: ReadonlyMap<string, { readonly value: number; readonly bound: "lower" | "upper" | null }>;
  /** when its file says it was taken; null where it does not */
  readonly takenAt: string | null;
};

/** How good a value is, larger being better, in the measure's own unit. */
export function goodness({ sense, best }: Pick<AimLimit, "sense" | "best">, value: number): number {
  if (sense === "at-least") return value;
  return sense === "at-most" ? -value : -Math.abs(value - best);
}
