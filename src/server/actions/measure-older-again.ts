import { done, type Outcome } from "#domain/outcome.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { listMeasuredByOlderVersions } from "#drizzle/queries/older-measures.ts";
import { enqueueMeasure } from "#drizzle/queries/work.ts";
import type { Context } from "../context.ts";

/** Asks for everything to be measured anew that an older version of the program measured; what it read holds until the new values are whole. */
export function measureOlderAgain(context: Context): Outcome<{ asked: number }> {
  const asked = context.db.transaction((tx) => {
    const captureIds = listMeasuredByOlderVersions(tx);
    for (const captureId of captureIds) enqueueMeasure(tx, captureId);
    if (captureIds.length > 0)
      recordEvent(tx, {
        at: context.now(),
        userId: context.userId,
        verb: "older measures asked anew",
        subject: "collection",
        subjectId: 1,
        detail: { count: captureIds.length },
      });
    return captureIds.length;
  });
  context.nudgeWork();
  return done({ asked });
}
