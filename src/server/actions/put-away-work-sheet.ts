import { done, type Outcome, refused } from "#domain/outcome.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findWorkSheet, setPutAway } from "#drizzle/queries/work-sheets.ts";
import type { Context } from "../context.ts";

/** Puts a finished work sheet out of sight, or takes it out again. Nothing of it is lost, and a row that opens again shows it again. */
export function putAwayWorkSheet(context: Context, sheetId: number, step: "put-away" | "take-out"): Outcome<null> {
  return context.db.transaction((tx) => {
    const sheet = findWorkSheet(tx, sheetId);
    if (!sheet) return refused({ about: null, happened: "This work sheet does not exist.", remedy: "Choose one from the list." });
    const waiting = sheet.counts.open + sheet.counts.ticked;
    if (step === "put-away" && waiting > 0)
      return refused({
        about: null,
        happened: `${waiting} of its rows ${waiting === 1 ? "is" : "are"} not done yet, so the sheet was not put away.`,
        remedy: "Capture them, or say of each why it is good enough.",
      });
    if ((sheet.putAwayAt !== null) === (step === "put-away")) return done(null);
    const at = context.now();
    setPutAway(tx, sheetId, step === "put-away" ? at : null);
    const verb = step === "put-away" ? "put away" : "taken out";
    recordEvent(tx, { at, userId: context.userId, verb, subject: "work-sheet", subjectId: sheetId, detail: { name: sheet.name } });
    return done(null);
  });
}
