import { done, type Outcome, refused } from "#domain/outcome.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findPrint, setPrintBinned } from "#drizzle/queries/prints.ts";
import type { Context } from "../context.ts";

/** Takes a print out of the bin again, as it was, under its own number. */
export function restorePrint(context: Context, input: { printId: number }): Outcome<{ printId: number }> {
  return context.db.transaction((tx) => {
    const print = findPrint(tx, input.printId);
    if (!print) return refused({ about: null, happened: "This print does not exist.", remedy: "Look for it among the prints." });
    if (print.binnedAt === null) return done({ printId: print.id });
    setPrintBinned(tx, print.id, null);
    recordEvent(tx, {
      at: context.now(),
      userId: context.userId,
      verb: "restored",
      subject: "print",
      subjectId: print.id,
      printId: print.id,
      detail: { from: { binnedAt: print.binnedAt }, to: { binnedAt: null } },
    });
    return done({ printId: print.id });
  });
}
