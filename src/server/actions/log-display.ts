import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import type { DisplayInput } from "#domain/storage/display.ts";
import { deleteDisplayRow, endDisplayRow, findDisplay, insertDisplay } from "#drizzle/queries/displays.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import type { Context } from "../context.ts";

/** Notes a stretch of days on which a print was in the light. */
export function logDisplay(context: Context, { printId, input }: { printId: number; input: DisplayInput }): Outcome<{ displayId: number }> {
  return context.db.transaction((tx) => {
    const print = findPrint(tx, printId);
    if (!print || print.binnedAt !== null)
      return refused({ about: null, happened: "This print does not exist, or lies in the bin.", remedy: "Choose another from the list." });
    const displayId = insertDisplay(tx, printId, input, context.userId);
    record(context, tx, "logged", displayId, printId, { ...input });
    return done({ displayId });
  });
}

/** Says which was the last day of a print that was still on display. */
export function endDisplay(context: Context, { displayId, endsOn }: { displayId: number; endsOn: string }): Outcome<{ printId: number }> {
  return context.db.transaction((tx) => {
    const display = findDisplay(tx, displayId);
    if (!display) return refused(NO_DISPLAY);
    if (endsOn < display.startsOn)
      return refused({ about: "endsOn", happened: `It was put up on ${display.startsOn}, after that day.`, remedy: "Write a later day." });
    endDisplayRow(tx, displayId, endsOn);
    record(context, tx, "ended", displayId, display.printId, { endsOn });
    return done({ printId: display.printId });
  });
}

/** Takes days out again that were logged by mistake; the history keeps what they said. */
export function takeBackDisplay(context: Context, { displayId }: { displayId: number }): Outcome<{ printId: number }> {
  return context.db.transaction((tx) => {
    const display = findDisplay(tx, displayId);
    if (!display) return refused(NO_DISPLAY);
    deleteDisplayRow(tx, displayId);
    record(context, tx, "taken back", displayId, display.printId, { ...display });
    return done({ printId: display.printId });
  });
}

type Writing = Parameters<typeof recordEvent>[0];

function record(context: Context, tx: Writing, verb: string, subjectId: number, printId: number, detail: Record<string, unknown>): void {
  recordEvent(tx, { at: context.now(), userId: context.userId, verb, subject: "display", subjectId, printId, detail });
}

const NO_DISPLAY: Refusal = {
  about: null,
  happened: "These days on display are not kept any more.",
  remedy: "Look at the list again: somebody may have taken them out.",
};
