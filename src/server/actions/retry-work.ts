import { done, type Outcome } from "#domain/outcome.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { retryFailed } from "#drizzle/queries/work.ts";
import type { Context } from "../context.ts";

/** Takes up again what could not be measured or compared. */
export function retryWork(context: Context): Outcome<{ retried: number }> {
  const retried = context.db.transaction((tx) => {
    const count = retryFailed(tx);
    if (count > 0)
      recordEvent(tx, { userId: context.userId, verb: "work retried", subject: "collection", subjectId: 1, detail: { count } });
    return count;
  });
  context.nudgeWork();
  return done({ retried });
}
