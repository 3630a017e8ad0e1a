import { done, type Outcome, refused } from "#domain/outcome.ts";
import { deleteClimateImport, findClimateImport } from "#drizzle/queries/climate.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import type { Context } from "../context.ts";

/** Takes the readings of one import out of a place again, such as those of a logger that stood elsewhere. */
export function takeBackClimate(
  context: Context,
  { placeId, importId }: { placeId: number; importId: number },
): Outcome<{ readings: number }> {
  return context.db.transaction((tx) => {
    const held = findClimateImport(tx, importId);
    if (held?.placeId !== placeId)
      return refused({
        about: null,
        happened: "These readings are not in this place.",
        remedy: "Look at the list again: somebody may have taken them out.",
      });
    deleteClimateImport(tx, held);
    const detail = { fileName: held.fileName, readings: held.readingCount };
    recordEvent(tx, {
      at: context.now(),
      userId: context.userId,
      verb: "climate taken back",
      subject: "place",
      subjectId: placeId,
      detail,
    });
    return done({ readings: held.readingCount });
  });
}
