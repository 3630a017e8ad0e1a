import { done, type Outcome } from "#domain/outcome.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { cancelWaiting } from "#drizzle/queries/work.ts";
import type { Context } from "../context.ts";

/** Stops all that waits; what runs goes on to its end. */
export function cancelWork(context: Context): Outcome<{ cancelled: number }> {
  const cancelled = context.db.transaction((tx) => {
    const count = cancelWaiting(tx, context.now());
    if (count > 0)
      recordEvent(tx, { userId: context.userId, verb: "work cancelled", subject: "collection", subjectId: 1, detail: { count } });
    return count;
  });
  return done({ cancelled });
}
