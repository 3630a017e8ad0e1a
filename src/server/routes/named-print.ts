import { done, type Outcome, refused } from "#domain/outcome.ts";
import { findPrintByNumber } from "#drizzle/queries/prints.ts";
import type { Context } from "../context.ts";

/** The print whose number was typed; null where nothing was. Binned prints cannot be named. */
export function namedPrint(context: Context, typed: string, field = "print"): Outcome<number | null> {
  const number = typed.trim();
  if (number === "") return done(null);
  const print = findPrintByNumber(context.db, number);
  if (print?.binnedAt === null) return done(print.id);
  return refused(
    print
      ? { about: field, happened: `Print ${number} lies in the bin.`, remedy: "Restore it from the bin first, or name another." }
      : {
          about: field,
          happened: `There is no print with the number ${number}.`,
          remedy: "Look for a typing error, or catalogue it as a new print.",
        },
  );
}
