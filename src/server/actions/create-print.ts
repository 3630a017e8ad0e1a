import { done, type Outcome, refused } from "#domain/outcome.ts";
import type { PrintInput } from "#domain/print/schema.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { insertPrint } from "#drizzle/queries/prints.ts";
import type { Context } from "../context.ts";
import { changedFields } from "./changed-fields.ts";
import { refusalsOfRecord } from "./refusals-of-record.ts";

/** Enters a print into the collection. Its number must never have been used, not even by a print in the bin. */
export function createPrint(context: Context, input: PrintInput): Outcome<{ printId: number }> {
  return context.db.transaction((tx) => {
    const refusals = refusalsOfRecord(tx, input, null);
    if (refusals.length > 0) return refused(...refusals);
    const now = context.now();
    const printId = insertPrint(tx, input, now);
    recordEvent(tx, {
      at: now,
      userId: context.userId,
      verb: "created",
      subject: "print",
      subjectId: printId,
      printId,
      detail: { to: changedFields<PrintInput>({}, input).to },
    });
    return done({ printId });
  });
}
