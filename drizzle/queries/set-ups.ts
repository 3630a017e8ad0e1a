import { and, asc, eq, isNotNull, min, sql } from "drizzle-orm";
import type { SetUp, SetUpInput } from "#domain/capture/set-up.ts";
import type { Arrangement } from "#domain/plan/arrangement.ts";
import { type Queryable, schema } from "../client.ts";
import { STANDS } from "./standing-captures.ts";

export function listSetUps(db: Queryable): SetUp[] {
  return db.select().from(schema.setUps).orderBy(asc(schema.setUps.name)).all();
}

export function findSetUp(db: Queryable, id: number): SetUp | null {
  return db.select().from(schema.setUps).where(eq(schema.setUps.id, id)).get() ?? null;
}

/** Letter case does not tell two set-ups apart. */
export function findSetUpByName(db: Queryable, name: string): SetUp | null {
  return db.select().from(schema.setUps).where(sql`lower(${schema.setUps.name}) = lower(${name})`).get() ?? null;
}

/** Saves over what was said of it, and counts the save. */
export function updateSetUp(db: Queryable, id: number, setUp: SetUpInput): void {
  db.update(schema.setUps)
    .set({ ...setUp, revision: sql`${schema.setUps.revision} + 1` })
    .where(eq(schema.setUps.id, id))
    .run();
}

/** Keeps the figures that plans are worked out from. What is said of the set-up in words is another matter, and its revision stays. */
export function setArrangement(db: Queryable, id: number, arrangement: Arrangement): void {
  db.update(schema.setUps).set({ arrangement }).where(eq(schema.setUps.id, id)).run();
}

/** When the first capture that stands of each print that names a set-up was taken, as far as the files say. */
export function momentsTakenWith(db: Queryable, setUpId: number): string[] {
  const { captures, originals } = schema;
  const rows = db
    .select({ at: min(originals.capturedAt) })
    .from(captures)
    .innerJoin(originals, eq(originals.id, captures.originalId))
    .where(and(eq(captures.setUpId, setUpId), isNotNull(captures.printId), isNotNull(originals.capturedAt), STANDS))
    .groupBy(captures.printId)
    .all();
  return rows.flatMap(({ at }) => at ?? []);
}

export function insertSetUp(db: Queryable, setUp: SetUpInput): SetUp {
  return db.insert(schema.setUps).values(setUp).returning().get();
}
