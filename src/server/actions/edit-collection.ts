import type { CollectionInput } from "#domain/collection/collection-input.ts";
import { done, type Outcome } from "#domain/outcome.ts";
import { readCollection, updateCollection } from "#drizzle/queries/collection.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import type { Context } from "../context.ts";

/** Changes the collection's name and the pattern of its next object numbers; numbers already given stay. */
export function editCollection(context: Context, input: CollectionInput): Outcome<null> {
  return context.db.transaction((tx) => {
    const { name, objectNumberPattern } = readCollection(tx);
    if (name === input.name && objectNumberPattern === input.objectNumberPattern) return done(null);
    updateCollection(tx, input);
    recordEvent(tx, {
      at: context.now(),
      userId: context.userId,
      verb: "edited",
      subject: "collection",
      subjectId: 1,
      detail: { from: { name, objectNumberPattern }, to: input },
    });
    return done(null);
  });
}
