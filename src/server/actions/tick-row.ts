import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import { findRow, updateRow } from "#drizzle/queries/work-sheets.ts";
import type { Context } from "../context.ts";

type Of = { readonly sheetId: number; readonly rowId: number };

/** Ticks a row at the stand, or takes the tick back. A row that was closed or let go meanwhile stays so, and nothing is lost. */
export function tickRow(context: Context, { sheetId, rowId }: Of, step: "tick" | "untick"): Outcome<null> {
  return context.db.transaction((tx) => {
    const row = findRow(tx, sheetId, rowId);
    if (!row) return refused(ROW_GONE);
    const [from, to] = step === "tick" ? (["open", "ticked"] as const) : (["ticked", "open"] as const);
    if (row.state === from) updateRow(tx, rowId, { state: to, changedAt: context.now() });
    return done(null);
  });
}

export const ROW_GONE: Refusal = { about: null, happened: "This row is not on the work sheet any more.", remedy: "Go on with the next." };
