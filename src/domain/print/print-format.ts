/** A nominal size of prints, in mm, width × height as the print is normally read. */
export type PrintFormat = {
  readonly id: string;
  readonly name: string;
  readonly group: FormatGroup;
  /** processes that are found in this format; not a closed list */
  readonly processIds: readonly string[];
  /** when it was made, in the words of the source */
  readonly period: string;
  readonly sheetWidthMm: number;
  readonly sheetHeightMm: number;
  readonly imageWidthMm: number | null;
  readonly imageHeightMm: number | null;
  readonly borderTopMm: number | null;
  readonly borderRightMm: number | null;
  readonly borderBottomMm: number | null;
  readonly borderLeftMm: number | null;
  /** what the border looks like, where it helps to tell the format; null when nothing is to be said */
  readonly border: string | null;
  /** half-width of the interval a true sheet side lies in; a proposal of this program, no published cutting tolerance was found */
  readonly toleranceMm: number;
  /** sheet sides found on real prints, where they spread further than the tolerance */
  readonly foundMm: FoundRange | null;
  /** who says so; "from memory" where no text was read */
  readonly source: string;
  /** what is unsure about the numbers; null when the sources agree */
  readonly doubt: string | null;
  /** whether the sheet may stand or lie; a sheet with a pod is always described with the pod below */
  readonly turnable: boolean;
  /** whether a measured size may propose it */
  readonly matchable: boolean;
};

export type FoundRange = { readonly widthMm: readonly [number, number]; readonly heightMm: readonly [number, number] };

export const FORMAT_GROUPS = {
  "integral-instant": "Integral instant prints",
  "peel-apart-instant": "Peel-apart instant prints",
  snapshot: "Snapshots, strips and small prints",
  "cut-sheet": "Cut sheets",
  "card-mount": "Card mounts and cards",
  plate: "Plates, glass and large formats",
} as const;
export type FormatGroup = keyof typeof FORMAT_GROUPS;

/** What is not said of a format. */
export const UNSAID = {
  imageWidthMm: null,
  imageHeightMm: null,
  borderTopMm: null,
  borderRightMm: null,
  borderBottomMm: null,
  borderLeftMm: null,
  border: null,
  foundMm: null,
  doubt: null,
  turnable: true,
  matchable: true,
} as const;
