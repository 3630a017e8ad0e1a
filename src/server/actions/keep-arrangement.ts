import { done, type Outcome, refused } from "#domain/outcome.ts";
import { type Arrangement, typedFromArrangement } from "#domain/plan/arrangement.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findSetUp, setArrangement } from "#drizzle/queries/set-ups.ts";
import type { Context } from "../context.ts";
import { changedFields } from "./changed-fields.ts";

/** Keeps with a set-up the figures that plans are worked out from; what stood there before stays in its history. */
export function keepArrangement(context: Context, { setUpId, arrangement }: { setUpId: number; arrangement: Arrangement }): Outcome<null> {
  return context.db.transaction((tx) => {
    const setUp = findSetUp(tx, setUpId);
    if (!setUp) return refused({ about: null, happened: "This set-up does not exist.", remedy: "Choose another from the list." });
    const changes = changedFields(setUp.arrangement ? typedFromArrangement(setUp.arrangement) : {}, typedFromArrangement(arrangement));
    if (Object.keys(changes.to).length > 0) {
      setArrangement(tx, setUpId, arrangement);
      recordEvent(tx, {
        at: context.now(),
        userId: context.userId,
        verb: "edited",
        subject: "set-up",
        subjectId: setUpId,
        detail: changes,
      });
    }
    return done(null);
  });
}
