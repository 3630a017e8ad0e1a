import { done, type Outcome, refused } from "#domain/outcome.ts";
import { findCapture, setCapturePutAway } from "#drizzle/queries/captures.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { enqueueCompare, enqueueMeasure, forgetMeasure } from "#drizzle/queries/work.ts";
import type { Context } from "../context.ts";
import { chooseMasters } from "./choose-masters.ts";

const NOT_THERE = { about: null, happened: "This capture does not exist.", remedy: "Choose another from the list." };

/**
 * Puts a capture away that is not to count: it leaves choices, lists and comparisons, and its print is judged without it at once. Its
 * original, its readings and what was said of it are kept. Putting away twice keeps the first day and reason.
 */
export function putAwayCapture(
  context: Context,
  { captureId, reason }: { captureId: number; reason: string },
): Outcome<{ captureId: number }> {
  const capture = findCapture(context.db, captureId);
  if (!capture) return refused(NOT_THERE);
  if (capture.divided)
    return refused({
      about: null,
      happened: "This bed has been divided and counts nowhere.",
      remedy: "Put away its parts, each a capture of its own.",
    });
  if (capture.putAwayAt !== null) return done({ captureId });
  const { printId, side, name } = capture;
  const at = context.now();
  context.db.transaction((tx) => {
    setCapturePutAway(tx, captureId, at);
    forgetMeasure(tx, captureId);
    if (printId !== null) enqueueCompare(tx, printId, side);
    recordEvent(tx, {
      at,
      userId: context.userId,
      verb: "put away",
      subject: "capture",
      subjectId: captureId,
      printId,
      detail: { fileName: name, reason },
    });
  });
  if (printId !== null) chooseMasters(context, { printIds: [printId] });
  context.nudgeWork();
  return done({ captureId });
}

/** Lets a capture count again, for the print and side it was put away from. It is measured anew: its print may have changed meanwhile. */
export function takeBackCapture(context: Context, { captureId }: { captureId: number }): Outcome<{ captureId: number }> {
  const capture = findCapture(context.db, captureId);
  if (!capture) return refused(NOT_THERE);
  if (capture.putAwayAt === null) return done({ captureId });
  context.db.transaction((tx) => {
    setCapturePutAway(tx, captureId, null);
    enqueueMeasure(tx, captureId);
    recordEvent(tx, {
      at: context.now(),
      userId: context.userId,
      verb: "taken back",
      subject: "capture",
      subjectId: captureId,
      printId: capture.printId,
      detail: { fileName: capture.name },
    });
  });
  context.nudgeWork();
  return done({ captureId });
}
