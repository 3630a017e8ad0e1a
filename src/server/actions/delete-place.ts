import { done, type Outcome, refused } from "#domain/outcome.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { contentsOfPlace, deletePlaceRow, findPlace } from "#drizzle/queries/places.ts";
import type { Context } from "../context.ts";

/** Takes an empty place away. Its history stays. */
export function deletePlace(context: Context, { placeId }: { placeId: number }): Outcome<{ name: string }> {
  return context.db.transaction((tx) => {
    const place = findPlace(tx, placeId);
    if (!place) return refused({ about: null, happened: "This place does not exist.", remedy: "Choose another from the list." });
    const keeps = keptIn(contentsOfPlace(tx, placeId));
    if (keeps !== null)
      return refused({
        about: null,
        happened: `${place.name} is not empty: in it there ${keeps}.`,
        remedy: "Empty it first, then delete it.",
      });
    deletePlaceRow(tx, placeId);
    const { name, kind, parentId } = place;
    recordEvent(tx, {
      at: context.now(),
      userId: context.userId,
      verb: "deleted",
      subject: "place",
      subjectId: placeId,
      detail: { from: { name, kind, parentId } },
    });
    return done({ name });
  });
}

/** What is in a place, as the end of “in it there …”; null when nothing is. */
export function keptIn(contents: ReturnType<typeof contentsOfPlace>): string | null {
  const parts = [
    ...said(contents.places, "other place", "other places"),
    ...said(contents.prints, "print", "prints"),
    ...said(contents.binnedPrints, "print that lies in the bin", "prints that lie in the bin"),
    ...(contents.readings ? ["climate readings"] : []),
  ];
  if (parts.length === 0) return null;
  const isOne = parts.length === 1 && contents.places + contents.prints + contents.binnedPrints === 1;
  return `${isOne ? "is" : "are"} ${parts.join(", ")}`;
}

const said = (count: number, one: string, many: string): string[] => (count === 0 ? [] : [`${count} ${count === 1 ? one : many}`]);
