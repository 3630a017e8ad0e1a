import { done, type Outcome, refused } from "#domain/outcome.ts";
import type { PlaceInput } from "#domain/storage/place-input.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findPlace, findPlaceByName, insertPlace } from "#drizzle/queries/places.ts";
import type { Context } from "../context.ts";

/** Adds a place. Two places inside the same place never share a name. */
export function createPlace(context: Context, input: PlaceInput): Outcome<{ placeId: number }> {
  return context.db.transaction((tx) => {
    if (input.parentId !== null && !findPlace(tx, input.parentId)) {
      return refused({
        about: "parentId",
        happened: "The place it should stand in does not exist.",
        remedy: "Choose another from the list.",
      });
    }
    const namesake = findPlaceByName(tx, input.parentId, input.name);
    if (namesake) {
      return refused({
        about: "name",
        happened: `There is already a place called ${namesake.name} there.`,
        remedy: "Use that one, or give this one another name.",
      });
    }
    const placeId = insertPlace(tx, input);
    recordEvent(tx, {
      at: context.now(),
      userId: context.userId,
      verb: "created",
      subject: "place",
      subjectId: placeId,
      detail: { to: { kind: input.kind, name: input.name, parentId: input.parentId } },
    });
    return done({ placeId });
  });
}
