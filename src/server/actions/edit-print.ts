import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import type { PrintInput } from "#domain/print/schema.ts";
import type { Queryable } from "#drizzle/client.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findPrint, type PrintValues, updatePrint } from "#drizzle/queries/prints.ts";
import { remeasurePrint } from "#drizzle/queries/work.ts";
import type { Context } from "../context.ts";
import { type Changes, changedFields } from "./changed-fields.ts";
import { refusalsOfRecord } from "./refusals-of-record.ts";

export type EditPrint = {
  printId: number;
  /** the revision that the person saw when they began to type */
  readRevision: number;
  input: PrintInput;
};

/**
 * Changes the record of a print. Refused when somebody else has saved since it was read, so that
 * nothing is overwritten unseen. Another size or format has the captures measured anew.
 */
export function editPrint(context: Context, { printId, readRevision, input }: EditPrint): Outcome<{ printId: number; changed: string[] }> {
  const outcome = context.db.transaction((tx): Outcome<{ printId: number; changed: string[] }> => {
    const print = findPrint(tx, printId);
    if (!print) return refused({ about: null, happened: "This print does not exist.", remedy: "Choose another from the list." });
    if (print.binnedAt !== null) return refused(IN_THE_BIN);
    if (print.revision !== readRevision) return refused(SAVED_MEANWHILE);
    const refusals = refusalsOfRecord(tx, input, printId);
    if (refusals.length > 0) return refused(...refusals);
    const changes = changedFields(print, input);
    const changed = Object.keys(changes.to);
    if (changed.length > 0) save(tx, context, { printId, readRevision, input }, changes);
    return done({ printId, changed });
  });
  if (outcome.ok && changesScale(outcome.value.changed)) context.nudgeWork();
  return outcome;
}

export const SAVED_MEANWHILE: Refusal = {
  about: "revision",
  happened: "Somebody else saved this print while you were typing.",
  remedy: "Look at both below, and save again when the fields show what should stay.",
};

const IN_THE_BIN: Refusal = { about: null, happened: "This print is in the bin.", remedy: "Restore it from the bin, then edit it." };

/** The scale of a capture is read from the print's size, so these make its measures stale. */
const SCALE_FIELDS: readonly (keyof PrintValues)[] = [
  "formatId",
  "orientation",
  "sheetWidthMm",
  "sheetHeightMm",
  "imageWidthMm",
  "imageHeightMm",
  "borderTopMm",
  "borderRightMm",
  "borderBottomMm",
  "borderLeftMm",
];

const changesScale = (changed: readonly string[]): boolean => SCALE_FIELDS.some((field) => changed.includes(field));

function save(tx: Queryable, context: Context, { printId, readRevision, input }: EditPrint, changes: Changes<PrintValues>): void {
  const now = context.now();
  if (!updatePrint(tx, printId, readRevision, input, now)) throw new Error(`print ${printId} changed inside its own transaction`);
  if (changesScale(Object.keys(changes.to))) remeasurePrint(tx, printId);
  recordEvent(tx, {
    at: now,
    userId: context.userId,
    verb: "edited",
    subject: "print",
    subjectId: printId,
    printId,
    detail: changes,
  });
}
