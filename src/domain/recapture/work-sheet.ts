import type { RowState } from "./judged-row.ts";

/** How many rows of a work sheet stand where. */
export type SheetCounts = Readonly<Record<RowState, number>>;

/** Whether a sheet is out of sight. A row that opened again brings it back. */
export const isAway = ({ putAwayAt, counts }: { readonly putAwayAt: string | null; readonly counts: SheetCounts }): boolean =>
  putAwayAt !== null && counts.open + counts.ticked === 0;
