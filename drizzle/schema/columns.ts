import { sql } from "drizzle-orm";
import { integer, text } from "drizzle-orm/sqlite-core";

/** The row's own key. Never shown to a person, never used twice. */
export const id = () => integer().primaryKey({ autoIncrement: true });

/** A name that stays true outside this database (RFC 9562). */
export const uuid = () =>
  text()
    .notNull()
    .unique()
    .$defaultFn(() => crypto.randomUUID());

/** A moment, as ISO 8601 text in UTC, so that a plain look at the file can read it. */
export const moment = () => text();

export const createdAt = () => text().notNull().default(sql`(strftime('%Y-%m-%dT%H:%M:%fZ', 'now'))`);
