import { asc, eq } from "drizzle-orm";
import { type Queryable, schema } from "../client.ts";

export type Collection = typeof schema.collection.$inferSelect;

/** Makes the collection's single row where there is none; returns who acts at this machine. */
export function ensureCollection(db: Queryable, made: { name: string; isDemo: boolean }): { userId: number } {
  db.insert(schema.collection)
    .values({ id: 1, ...made })
    .onConflictDoNothing()
    .run();
  const keeper = db.select({ id: schema.users.id }).from(schema.users).orderBy(asc(schema.users.id)).limit(1).get();
  if (!keeper) throw new Error("the database has no user: the migrations did not run whole");
  return { userId: keeper.id };
}

export function readCollection(db: Queryable): Collection {
  const row = db.select().from(schema.collection).where(eq(schema.collection.id, 1)).get();
  if (!row) throw new Error("the collection has no row of its own: it was not opened with openCollection");
  return row;
}

/** Changes what the keeper may say of the collection as a whole. */
export function updateCollection(db: Queryable, to: Pick<Collection, "name" | "objectNumberPattern">): void {
  db.update(schema.collection).set(to).where(eq(schema.collection.id, 1)).run();
}
