import type { Side } from "#domain/capture/capture.ts";
import { METHOD_LABELS, type Method } from "#domain/capture/method.ts";
import { IS_PUT_AWAY } from "#domain/capture/put-away.ts";
import { refusalOfStop } from "#domain/condition/method-stop.ts";
import { done, type Outcome, refused } from "#domain/outcome.ts";
import type { Queryable } from "#drizzle/client.ts";
import { type CaptureWithOriginal, findCapture, setCapturePrint, setHowCaptured } from "#drizzle/queries/captures.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import { findSetUp } from "#drizzle/queries/set-ups.ts";
import { enqueueCompare, enqueueMeasure } from "#drizzle/queries/work.ts";
import type { Context } from "../context.ts";
import { recordOverruledStop, type StoppedPrint, stopOfPrint } from "./stop-method.ts";

export type AssignCapture = {
  captureId: number;
  /** null puts the capture back into the tray */
  printId: number | null;
  side?: Side;
  /** null: not known */
  method?: Method | null;
  /** null: none named */
  setUpId?: number | null;
  /** YYYY-MM-DD on which it was made; null: as the file says */
  saidDay?: string | null;
  /** why the method was used although a caution forbids it for the print */
  despite?: string;
};

/**
 * Says which print and side a capture shows, and how it was made. Its measures are read anew, since
 * the scale comes from the print; the print it leaves is looked at again too. Choosing a method that a caution forbids for the print
 * is stopped unless a reason is given; naming the print of a capture that is made already is not.
 */
export function assignCapture(context: Context, input: AssignCapture): Outcome<{ captureId: number }> {
  const capture = findCapture(context.db, input.captureId);
  if (!capture) return refused(missing("captureId", "This capture does not exist.", "Go back to the list and choose another."));
  if (capture.divided)
    return refused(missing("captureId", "This bed has been divided.", "Assign its parts, each of which is a capture of its own."));
  if (capture.putAwayAt !== null) return refused(IS_PUT_AWAY);
  if (input.printId !== null) {
    const print = findPrint(context.db, input.printId);
    if (!print) return refused(missing("printId", "This print does not exist.", "Choose a print of the collection."));
    if (print.binnedAt !== null)
      return refused(missing("printId", `Print ${print.objectNumber} is in the bin.`, "Restore the print first, or choose another."));
  }
  const setUp = input.setUpId ? findSetUp(context.db, input.setUpId) : null;
  if (input.setUpId && !setUp) return refused(missing("setUpId", "This set-up does not exist.", "Choose one of the list, or none."));
  if (setUp && input.method && setUp.method !== input.method)
    return refused(
      missing(
        "method",
        `The set-up “${setUp.name}” is one of a ${METHOD_LABELS[setUp.method].toLowerCase()}.`,
        "Choose that method, or another set-up.",
      ),
    );
  const stop = stopOfChoice(context, capture, input);
  if (stop && input.despite === undefined) return refused(refusalOfStop(stop, stop.print.objectNumber));
  context.db.transaction((tx) => assign(tx, context, capture, input, stop));
  context.nudgeWork();
  return done({ captureId: capture.id });
}

/** The caution against a print and a way of capturing of which it is said now that they met. What was held already is not asked about again. */
function stopOfChoice(
  { db, now }: Context,
  capture: CaptureWithOriginal,
  { printId, method, setUpId = capture.setUpId, despite }: AssignCapture,
): StoppedPrint | null {
  if (printId === null || !method) return null;
  const stop = stopOfPrint(db, now(), printId, { method, setUpId });
  const isHeld = printId === capture.printId && method === capture.method && (setUpId === capture.setUpId || !stop?.hasGlass);
  return isHeld && despite === undefined ? null : stop;
}

function assign(tx: Queryable, context: Context, capture: CaptureWithOriginal, input: AssignCapture, overruled: StoppedPrint | null): void {
  const side = input.side ?? capture.side;
  const moved = input.printId !== capture.printId || side !== capture.side;
  if (moved) {
    setCapturePrint(tx, capture.id, { printId: input.printId, side });
    if (capture.printId !== null) enqueueCompare(tx, capture.printId, capture.side);
    enqueueMeasure(tx, capture.id);
  }
  const method = input.method === undefined ? capture.method : input.method;
  const setUpId = input.setUpId === undefined ? capture.setUpId : input.setUpId;
  const saidDay = input.saidDay === undefined ? capture.saidDay : input.saidDay;
  const isSaidAnew = method !== capture.method || setUpId !== capture.setUpId || saidDay !== capture.saidDay || overruled !== null;
  if (!moved && !isSaidAnew) return;
  // a guess that nobody changed stays a guess
  const methodBasis = method === null ? null : method === capture.method && !overruled ? capture.methodBasis : "said";
  if (isSaidAnew) setHowCaptured(tx, capture.id, { method, methodBasis, setUpId, saidDay });
  const detail = {
    fileName: capture.name,
    from: { printId: capture.printId, side: capture.side, method: capture.method, setUpId: capture.setUpId, saidDay: capture.saidDay },
    to: {
      printId: input.printId,
      side,
      method,
      setUpId,
      saidDay,
    },
  };
  const event = { userId: context.userId, at: context.now(), verb: "assigned", subject: "capture" as const, subjectId: capture.id, detail };
  recordEvent(tx, { ...event, printId: input.printId });
  if (overruled && input.despite)
    recordOverruledStop(tx, context, overruled, { captureId: capture.id, fileName: capture.name, reason: input.despite });
  if (capture.printId !== null && capture.printId !== input.printId)
    recordEvent(tx, { ...event, verb: "moved away", printId: capture.printId });
}

const missing = (about: string, happened: string, remedy: string) => ({ about, happened, remedy });
