import { IS_PUT_AWAY } from "#domain/capture/put-away.ts";
import { done, type Outcome, refused } from "#domain/outcome.ts";
import { findCapture } from "#drizzle/queries/captures.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { enqueueMeasure } from "#drizzle/queries/work.ts";
import type { Context } from "../context.ts";

/** Asks for a capture to be measured anew; what was read from it holds until the new values are whole. */
export function measureAgain(context: Context, { captureId }: { captureId: number }): Outcome<{ captureId: number }> {
  const outcome = context.db.transaction((tx): Outcome<{ captureId: number }> => {
    const capture = findCapture(tx, captureId);
    if (!capture) return refused({ about: null, happened: "This capture does not exist.", remedy: "Choose another from the list." });
    if (capture.divided)
      return refused({ about: null, happened: "This bed has been divided.", remedy: "Measure its parts, each a capture of its own." });
    if (capture.putAwayAt !== null) return refused(IS_PUT_AWAY);
    enqueueMeasure(tx, captureId);
    recordEvent(tx, {
      at: context.now(),
      userId: context.userId,
      verb: "sent to be measured again",
      subject: "capture",
      subjectId: captureId,
      printId: capture.printId,
    });
    return done({ captureId });
  });
  if (outcome.ok) context.nudgeWork();
  return outcome;
}
