import { done, type Outcome, refused } from "#domain/outcome.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findPlace, findPlaceByName, renamePlace as saveName } from "#drizzle/queries/places.ts";
import type { Context } from "../context.ts";

/** Gives a place another name; what stands in it stays where it is. */
export function renamePlace(context: Context, input: { placeId: number; newName: string }): Outcome<{ placeId: number }> {
  return context.db.transaction((tx) => {
    const place = findPlace(tx, input.placeId);
    if (!place) return refused({ about: null, happened: "This place does not exist.", remedy: "Choose another from the list." });
    const namesake = findPlaceByName(tx, place.parentId, input.newName);
    if (namesake && namesake.id !== place.id) {
      return refused({
        about: "newName",
        happened: `There is already a place called ${namesake.name} there.`,
        remedy: "Choose another name.",
      });
    }
    if (place.name === input.newName) return done({ placeId: place.id });
    saveName(tx, place.id, input.newName);
    recordEvent(tx, {
      at: context.now(),
      userId: context.userId,
      verb: "renamed",
      subject: "place",
      subjectId: place.id,
      detail: { from: { name: place.name }, to: { name: input.newName } },
    });
    return done({ placeId: place.id });
  });
}
