import type { Asked } from "./asked.ts";
import type { Extent } from "./sampling.ts";

/** What is to be captured, and what is asked of it. */
export type Job = {
  readonly prints: readonly PlannedPrint[];
  /** ground to be seen round the print on every side */
  readonly marginMm: number;
  /** how high the print rises off the plane it lies on */
  readonly curlMm: number;
  readonly asked: Asked;
};

export type PlannedPrint = Extent & { readonly label: string };

/** Prints of one size, to the millimetre. */
export type SizeClass = Extent & { readonly prints: readonly PlannedPrint[] };

/** Prints gathered by their size, lying or standing alike, the largest first. */
export function sizeClasses(prints: readonly PlannedPrint[]): SizeClass[] {
  const classes = new Map<string, PlannedPrint[]>();
  for (const print of prints) {
    const key = sizeKey(print);
    classes.set(key, [...(classes.get(key) ?? []), print]);
  }
  return [...classes.values()]
    .map((of) => ({
      widthMm: Math.max(...of.map(({ widthMm, heightMm }) => Math.min(widthMm, heightMm))),
      heightMm: Math.max(...of.map(({ widthMm, heightMm }) => Math.max(widthMm, heightMm))),
      prints: of,
    }))
    .toSorted((a, b) => b.widthMm * b.heightMm - a.widthMm * a.heightMm);
}

/** The name of a print's size, short side first: “88x107”. */
export const sizeKey = ({ widthMm, heightMm }: Extent): string =>
  `${Math.round(Math.min(widthMm, heightMm))}x${Math.round(Math.max(widthMm, heightMm))}`;
