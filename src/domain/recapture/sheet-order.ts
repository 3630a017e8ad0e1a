import type { Side } from "../capture/capture.ts";
import type { Method } from "../capture/method.ts";
import { byNumbers } from "../print/object-number.ts";
import type { RecapturePriority } from "./recapture-priority.ts";

/** What decides where a row stands on a work sheet. */
export type OrderedRow = {
  readonly objectNumber: string;
  readonly side: Side;
  /** from the outermost place inwards; empty when the place is not known */
  readonly placePath: readonly string[];
  /** how it is to be captured; null where no way is left without a conservator */
  readonly method: Method | null;
  readonly setUpName: string | null;
  readonly priority: Pick<RecapturePriority, "score" | "most">;
};

/** The rows of one place, so that each box is opened once; in it those of one set-up together, so that it is set up once. */
export type PlaceOnSheet<T> = { readonly placePath: readonly string[]; readonly setUps: readonly RowsOfSetUp<T>[] };
export type RowsOfSetUp<T> = { readonly method: Method | null; readonly setUpName: string | null; readonly rows: readonly T[] };

/**
 * The order of the work: the place that holds the most urgent row comes first, in it the set-up with the most urgent row, then the
 * rows by priority. Of equals the one that may be more urgent comes first, then the lower number.
 */
export function inSheetOrder<T extends OrderedRow>(rows: readonly T[]): T[] {
  const byUrgency = rows.toSorted(urgentFirst);
  return gathered(byUrgency, placeKey).flatMap((ofPlace) => gathered(ofPlace, setUpKey).flat());
}

/** Rows in their order as they are shown: a part for each place, in it one for each set-up. */
export function placesOnSheet<T extends OrderedRow>(rows: readonly T[]): PlaceOnSheet<T>[] {
  return gathered(rows, placeKey).map((ofPlace) => ({
    placePath: ofPlace[0]?.placePath ?? [],
    setUps: gathered(ofPlace, setUpKey).map((of) => ({
      method: of[0]?.method ?? null,
      setUpName: of[0]?.setUpName ?? null,
      rows: of,
    })),
  }));
}

function urgentFirst(a: OrderedRow, b: OrderedRow): number {
  return (
    b.priority.score - a.priority.score ||
    b.priority.most - a.priority.most ||
    byNumbers.compare(a.objectNumber, b.objectNumber) ||
    Number(a.side === "back") - Number(b.side === "back")
  );
}
const placeKey = ({ placePath }: OrderedRow) => placePath.join("\n");
const setUpKey = ({ method, setUpName }: OrderedRow) => `${method ?? ""}\n${setUpName ?? ""}`;

/** Equal keys together, each where its first stood. */
function gathered<T>(rows: readonly T[], keyOf: (row: T) => string): T[][] {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const group = groups.get(keyOf(row));
    if (group) group.push(row);
    else groups.set(keyOf(row), [row]);
  }
  return [...groups.values()];
}
