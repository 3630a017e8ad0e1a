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
  const refusals = refusalsOfNumber(db, input.objectNumber, ownId);
  if (input.placeId !== null && !findPlace(db, input.placeId)) {
    refusals.push({ about: "placeId", happened: "This place does not exist.", remedy: "Choose a place from the list." });
  }
  return refusals;
}

/** What the rest of the collection has against a number; can be asked before the other fields are sound. */
export function refusalsOfNumber(db: Queryable, objectNumber: string, ownId: number | null): Refusal[] {
  const holder = findPrintByNumber(db, objectNumber);
  if (!holder || holder.id === ownId) return [];
  const isKept = holder.binnedAt === null;
  return [
    {
      about: "objectNumber",
      happened: isKept
        ? `Number ${holder.objectNumber} already belongs to ${holder.title === "" ? "another print" : `“${holder.title}”`}.`
        : `Number ${holder.objectNumber} belongs to a print in the bin, and a number is never used twice.`,
      remedy: isKept ? "Choose another number, or edit that print." : "Choose another number, or restore that print.",
    },
  ];
}
