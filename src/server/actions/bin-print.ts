import { done, type Outcome, refused } from "#domain/outcome.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findPrint, setPrintBinned } from "#drizzle/queries/prints.ts";
import type { Context } from "../context.ts";

/** Puts a print into the bin. Its record, captures and number stay; binning twice keeps the first date. */
export function binPrint(context: Context, input: { printId: number }): Outcome<{ printId: number }> {
  return context.db.transaction((tx) => {
    const print = findPrint(tx, input.printId);
    if (!print) return refused({ about: null, happened: "This print does not exist.", remedy: "Choose another from the list." });
    if (print.binnedAt !== null) return done({ printId: print.id });
    const now = context.now();
    setPrintBinned(tx, print.id, now);
    recordEvent(tx, {
      at: now,
      userId: context.userId,
      verb: "binned",
      subject: "print",
      subjectId: print.id,
      printId: print.id,
      detail: { from: { binnedAt: null }, to: { binnedAt: now } },
    });
    return done({ printId: print.id });
  });
}
