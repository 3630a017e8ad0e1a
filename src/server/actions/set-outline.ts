import { frameOf } from "#domain/capture/capture.ts";
import { whyNoOutline } from "#domain/capture/corners.ts";
import { IS_PUT_AWAY } from "#domain/capture/put-away.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { done, type Outcome, refused } from "#domain/outcome.ts";
import { findCapture, setSaidOutline } from "#drizzle/queries/captures.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { enqueueMeasure } from "#drizzle/queries/work.ts";
import type { Context } from "../context.ts";

/** Keeps the outline a person set for a capture, or gives it back to measuring (null); either way it is measured anew. */
export function setOutline(context: Context, input: { captureId: number; corners: Quad | null }): Outcome<{ captureId: number }> {
  const capture = findCapture(context.db, input.captureId);
  if (!capture || capture.divided)
    return refused({ about: null, happened: "This capture has no outline of its own.", remedy: "Choose one of the parts of the bed." });
  if (capture.putAwayAt !== null) return refused(IS_PUT_AWAY);
  const problem = input.corners && whyNoOutline(input.corners, frameOf(capture));
  if (problem) return refused({ about: "part1-corners", ...problem });
  context.db.transaction((tx) => {
    setSaidOutline(tx, capture.id, input.corners);
    enqueueMeasure(tx, capture.id);
    recordEvent(tx, {
      at: context.now(),
      userId: context.userId,
      verb: input.corners ? "outline set" : "outline given back",
      subject: "capture",
      subjectId: capture.id,
      printId: capture.printId,
      detail: { fileName: capture.name, from: capture.saidOutline, to: input.corners },
    });
  });
  context.nudgeWork();
  return done({ captureId: capture.id });
}
