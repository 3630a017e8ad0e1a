import { done, type Outcome, refused } from "#domain/outcome.ts";
import type { PlaceInput } from "#domain/storage/place-input.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import type { Context } from "../context.ts";
import { changedFields } from "./changed-fields.ts";
import { refusalsOfPlace } from "./refusals-of-place.ts";

/** Adds a place. */
export function createPlace(context: Context, input: PlaceInput): Outcome<{ placeId: number }> {
  return context.db.transaction((tx) => {
    const refusals = refusalsOfPlace(tx, input, null);
    if (refusals.length > 0) return refused(...refusals);
    const placeId = insertPlace(tx, input);
    recordEvent(tx, {
      at: context.now(),
      userId: context.userId,
      verb: "created",
      subject: "place",
      subjectId: placeId,
      detail: { to: changedFields<PlaceInput>({}, input).to },
    });
    return done({ placeId });
  });
}
