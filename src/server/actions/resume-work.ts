import { done, type Outcome } from "#domain/outcome.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { resumeCancelled } from "#drizzle/queries/work.ts";
import type { Context } from "../context.ts";

/** Takes up what was cancelled. */
export function resumeWork(context: Context): Outcome<{ resumed: number }> {
  const resumed = context.db.transaction((tx) => {
    const count = resumeCancelled(tx);
    if (count > 0)
      recordEvent(tx, { userId: context.userId, verb: "work resumed", subject: "collection", subjectId: 1, detail: { count } });
    return count;
  });
  context.nudgeWork();
  return done({ resumed });
}
