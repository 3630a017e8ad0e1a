/**
 * How much of the named part a finding covers. Told apart from severity: a small hole is severe, an even yellowing covers all and is
 * slight. The four steps are our own.
 */
export const EXTENTS = ["under-2", "2-to-10", "10-to-30", "over-30"] as const;
export type Extent = (typeof EXTENTS)[number];

export const EXTENT_WORDS: Readonly<Record<Extent, string>> = {
  "under-2": "under 2 % of this side",
  "2-to-10": "2 to 10 % of this side",
  "10-to-30": "10 to 30 % of this side",
  "over-30": "over 30 % of this side",
};
