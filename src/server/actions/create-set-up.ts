import type { SetUp, SetUpInput } from "#domain/capture/set-up.ts";
import { done, type Outcome, refused } from "#domain/outcome.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findSetUpByName, insertSetUp } from "#drizzle/queries/set-ups.ts";
import type { Context } from "../context.ts";

/** Adds a set-up that captures can name. Two set-ups never share a name. */
export function createSetUp(context: Context, input: SetUpInput): Outcome<SetUp> {
  return context.db.transaction((tx) => {
    if (findSetUpByName(tx, input.name)) {
      return refused({
        about: "name",
        happened: `There is already a set-up called ${input.name}.`,
        remedy: "Use that one, or give this one another name.",
      });
    }
    const setUp = insertSetUp(tx, input);
    recordEvent(tx, { verb: "created", subject: "set-up", subjectId: setUp.id, userId: context.userId, detail: { name: setUp.name } });
    return done(setUp);
  });
}
