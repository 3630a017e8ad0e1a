import { and, asc, count, eq, isNull, sql } from "drizzle-orm";
import type { Place, PlaceListed } from "#domain/storage/place.ts";
import { type Queryable, schema } from "../client.ts";

const { places, prints } = schema;

export type NewPlace = Pick<Place, "parentId" | "kind" | "name"> & Partial<Pick<Place, "enclosureKind" | "enclosureMaterial" | "note">>;

/** All places with the number of prints kept directly in each, in no order of the tree: see placeTree. */
export function listPlaces(db: Queryable): PlaceListed[] {
  return db
    .select({ place: places, printCount: count(prints.id) })
    .from(places)
    .leftJoin(prints, and(eq(prints.placeId, places.id), isNull(prints.binnedAt)))
    .groupBy(places.id)
    .orderBy(asc(places.name))
    .all()
    .map(({ place, printCount }) => ({ ...place, printCount }));
}

export function findPlace(db: Queryable, id: number): Place | null {
  return db.select().from(places).where(eq(places.id, id)).get() ?? null;
}

/** The place of that name inside the parent (null: at the top), whatever the case of its letters. */
export function findPlaceByName(db: Queryable, parentId: number | null, name: string): Place | null {
  const inside = db
    .select()
    .from(places)
    .where(parentId === null ? isNull(places.parentId) : eq(places.parentId, parentId))
    .all();
  return inside.find((place) => place.name.localeCompare(name, "en", { sensitivity: "accent" }) === 0) ?? null;
}

/** Names from the outermost place to this one; empty when there is no such place. */
export function placePath(db: Queryable, id: number): string[] {
  const names: string[] = [];
  const seen = new Set<number>();
  for (let at: number | null = id; at !== null && !seen.has(at); ) {
    seen.add(at);
    const place = findPlace(db, at);
    if (!place) break;
    names.unshift(place.name);
    at = place.parentId;
  }
  return names;
}

export function insertPlace(db: Queryable, place: NewPlace): number {
  return db.insert(places).values(place).returning({ id: places.id }).get().id;
}

/** Saves over what was said of it, and counts the save. */
export function updatePlace(db: Queryable, id: number, place: NewPlace): void {
  db.update(places)
    .set({ ...place, revision: sql`${places.revision} + 1` })
    .where(eq(places.id, id))
    .run();
}
