import type { SetUpInput } from "#domain/capture/set-up.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findSetUp, findSetUpByName, updateSetUp } from "#drizzle/queries/set-ups.ts";
import type { Context } from "../context.ts";
import { changedFields } from "./changed-fields.ts";

export type EditSetUp = {
  setUpId: number;
  /** the revision that the person saw when they began to type */
  readRevision: number;
  input: SetUpInput;
};

/** Changes what is said of a set-up; captures that name it go on naming it. Refused when somebody else has saved since it was read. */
export function editSetUp(context: Context, { setUpId, readRevision, input }: EditSetUp): Outcome<{ setUpId: number; changed: string[] }> {
  return context.db.transaction((tx) => {
    const setUp = findSetUp(tx, setUpId);
    if (!setUp) return refused({ about: null, happened: "This set-up does not exist.", remedy: "Choose another from the list." });
    if (setUp.revision !== readRevision) return refused(SAVED_MEANWHILE);
    const namesake = findSetUpByName(tx, input.name);
    if (namesake && namesake.id !== setUpId)
      return refused({ about: "name", happened: `There is already a set-up called ${namesake.name}.`, remedy: "Choose another name." });
    const changes = changedFields(setUp, input);
    const changed = Object.keys(changes.to);
    if (changed.length > 0) {
      updateSetUp(tx, setUpId, input);
      recordEvent(tx, {
        at: context.now(),
        userId: context.userId,
        verb: "edited",
        subject: "set-up",
        subjectId: setUpId,
        detail: changes,
      });
    }
    return done({ setUpId, changed });
  });
}

const SAVED_MEANWHILE: Refusal = {
  about: "revision",
  happened: "Somebody else saved this set-up while you were typing.",
  remedy: "Look at both below, and save again when the fields show what should stay.",
};
