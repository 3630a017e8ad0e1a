import type { Refusal } from "#domain/outcome.ts";
import type { PlaceInput } from "#domain/storage/place-input.ts";
import type { Queryable } from "#drizzle/client.ts";
import { findPlace, findPlaceByName } from "#drizzle/queries/places.ts";

/** What keeps a place from being saved as it is said. Two places inside the same place never share a name. */
export function refusalsOfPlace(db: Queryable, { parentId, name }: PlaceInput, ownId: number | null): Refusal[] {
  if (parentId !== null && !findPlace(db, parentId))
    return [{ about: "parentId", happened: "The place it should stand in does not exist.", remedy: "Choose another from the list." }];
  const namesake = findPlaceByName(db, parentId, name);
  if (!namesake || namesake.id === ownId) return [];
  return [
    {
      about: "name",
      happened: `There is already a place called ${namesake.name} there.`,
      remedy: ownId === null ? "Use that one, or give this one another name." : "Choose another name.",
    },
  ];
}
