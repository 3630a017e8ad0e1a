import type { Refusal } from "#domain/outcome.ts";
import type { PrintInput } from "#domain/print/schema.ts";
import type { Queryable } from "#drizzle/client.ts";
import { findPlace } from "#drizzle/queries/places.ts";
import { findPrintByNumber } from "#drizzle/queries/prints.ts";

/**
 * What the rest of the collection has against a record: a number that is taken, a place that is not there.
 * @param ownId the print being changed, whose own number does not stand in its way
 */
export function refusalsOfRecord(db: Queryable, input: PrintInput, ownId: number | null): Refusal[] {
  const refusals: Refusal[] = [];
  const holder = findPrintByNumber(db, input.objectNumber);
  if (holder && holder.id !== ownId) {
    refusals.push({
      about: "objectNumber",
      happened:
        holder.binnedAt === null
          ? `Number ${holder.objectNumber} already belongs to ${holder.title === "" ? "another print" : `“${holder.title}”`}.`
          : `Number ${holder.objectNumber} belongs to a print in the bin, and a number is never used twice.`,
      remedy: holder.binnedAt === null ? "Choose another number, or edit that print." : "Choose another number, or restore that print.",
    });
  }
  if (input.placeId !== null && !findPlace(db, input.placeId)) {
    refusals.push({ about: "placeId", happened: "This place does not exist.", remedy: "Choose a place from the list." });
  }
  return refusals;
}
