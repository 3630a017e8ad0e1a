import { done, type Outcome, refused } from "#domain/outcome.ts";
import type { ClimateReading } from "#domain/storage/climate/read-row.ts";
import { insertClimateImport, insertReading } from "#drizzle/queries/climate.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findPlace } from "#drizzle/queries/places.ts";
import type { Context } from "../context.ts";

class HeldAlready extends Error {}

/** Keeps one reading that a person took off an instrument. */
export function typeClimate(
  context: Context,
  { placeId, reading }: { placeId: number; reading: ClimateReading },
): Outcome<{ importId: number }> {
  const at = context.now();
  if (reading.atSeconds * 1000 > Date.parse(at) + 14 * 3_600_000)
    return refused({ about: "at", happened: "This moment has not come yet.", remedy: "Write when the instrument was read." });
  try {
    return context.db.transaction((tx) => {
      if (!findPlace(tx, placeId))
        return refused({ about: null, happened: "This place does not exist.", remedy: "Choose another from the list." });
      const importId = insertClimateImport(tx, { placeId, fileName: null, readingCount: 1, userId: context.userId, createdAt: at });
      if (!insertReading(tx, placeId, importId, reading)) throw new HeldAlready();
      recordEvent(tx, { at, userId: context.userId, verb: "climate typed", subject: "place", subjectId: placeId, detail: { ...reading } });
      return done({ importId });
    });
  } catch (error) {
    if (!(error instanceof HeldAlready)) throw error;
    return refused({
      about: "at",
      happened: "There is a reading of this moment already.",
      remedy: "Take that one back first if it is wrong, or write another moment.",
    });
  }
}
