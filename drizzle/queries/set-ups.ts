import { asc, eq, sql } from "drizzle-orm";
import type { SetUp, SetUpInput } from "#domain/capture/set-up.ts";
import { type Queryable, schema } from "../client.ts";

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

export function insertSetUp(db: Queryable, setUp: SetUpInput): SetUp {
  return db.insert(schema.setUps).values(setUp).returning().get();
}
