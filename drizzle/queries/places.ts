import { and, asc, count, eq, isNull, sql } from "drizzle-orm";
import type { Place, PlaceListed } from "#domain/storage/place.ts";
import { type Queryable, schema } from "../client.ts";

const { climateImports, places, prints } = schema;

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

/** What prints of a place lie in: the material said of it, or of the nearest place around it of which one is said. */
export function enclosureMaterialAt(db: Queryable, id: number | null): string | null {
  const seen = new Set<number>();
  for (let at = id; at !== null && !seen.has(at); ) {
    seen.add(at);
    const place = findPlace(db, at);
    if (!place) break;
    if (place.enclosureMaterial !== null) return place.enclosureMaterial;
    at = place.parentId;
  }
  return null;
}

export function insertPlace(db: Queryable, place: NewPlace): number {
  return db.insert(places).values(place).returning({ id: places.id }).get().id;
}

/** What keeps a place from being taken away: what stands or lies in it, the bin counted too, and what was measured there. */
export function contentsOfPlace(db: Queryable, id: number): { places: number; prints: number; binnedPrints: number; readings: boolean } {
  const inside = db.select({ count: count() }).from(places).where(eq(places.parentId, id)).get();
  const kept = db
    .select({ all: count(), binned: count(prints.binnedAt) })
    .from(prints)
    .where(eq(prints.placeId, id))
    .get();
  const readings = db.select({ id: climateImports.id }).from(climateImports).where(eq(climateImports.placeId, id)).limit(1).get();
  const binnedPrints = kept?.binned ?? 0;
  return { places: inside?.count ?? 0, prints: (kept?.all ?? 0) - binnedPrints, binnedPrints, readings: readings !== undefined };
}

export function deletePlaceRow(db: Queryable, id: number): void {
  db.delete(places).where(eq(places.id, id)).run();
}

/** Saves over what was said of it, and counts the save. */
export function updatePlace(db: Queryable, id: number, place: NewPlace): void {
  db.update(places)
    .set({ ...place, revision: sql`${places.revision} + 1` })
    .where(eq(places.id, id))
    .run();
}
