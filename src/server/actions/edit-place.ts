import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import type { PlaceInput } from "#domain/storage/place-input.ts";
import type { Queryable } from "#drizzle/client.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findPlace, updatePlace } from "#drizzle/queries/places.ts";
import type { Context } from "../context.ts";
import { changedFields } from "./changed-fields.ts";
import { refusalsOfPlace } from "./refusals-of-place.ts";

export type EditPlace = {
  placeId: number;
  /** the revision that the person saw when they began to type */
  readRevision: number;
  input: PlaceInput;
};

/**
 * Changes what is said of a place, or stands it inside another; what stands in it comes along. Refused when somebody else has
 * saved since it was read.
 */
export function editPlace(context: Context, { placeId, readRevision, input }: EditPlace): Outcome<{ placeId: number; changed: string[] }> {
  return context.db.transaction((tx) => {
    const place = findPlace(tx, placeId);
    if (!place) return refused({ about: null, happened: "This place does not exist.", remedy: "Choose another from the list." });
    if (place.revision !== readRevision) return refused(SAVED_MEANWHILE);
    const refusals = [...refusalsOfPlace(tx, input, placeId), ...(isInside(tx, input.parentId, placeId) ? [INSIDE_ITSELF] : [])];
    if (refusals.length > 0) return refused(...refusals);
    const changes = changedFields(place, input);
    const changed = Object.keys(changes.to);
    if (changed.length > 0) {
      updatePlace(tx, placeId, input);
      recordEvent(tx, { at: context.now(), userId: context.userId, verb: "edited", subject: "place", subjectId: placeId, detail: changes });
    }
    return done({ placeId, changed });
  });
}

/** Whether a place is the other one, or stands somewhere in it. */
function isInside(db: Queryable, placeId: number | null, other: number): boolean {
  for (let at = placeId; at !== null; at = findPlace(db, at)?.parentId ?? null) if (at === other) return true;
  return false;
}

const INSIDE_ITSELF: Refusal = {
  about: "parentId",
  happened: "A place cannot stand inside itself, nor inside what stands in it.",
  remedy: "Choose another place.",
};

const SAVED_MEANWHILE: Refusal = {
  about: "revision",
  happened: "Somebody else saved this place while you were typing.",
  remedy: "Look at both below, and save again when the fields show what should stay.",
};
