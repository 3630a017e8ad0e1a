import { sql } from "drizzle-orm";
import { check, integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { createdAt, id, uuid } from "./columns.ts";

/** What is true of the collection as a whole: exactly one row. */
export const collection = sqliteTable(
  "collection",
  {
    id: integer().primaryKey().default(1),
    uuid: uuid(),
    name: text().notNull(),
    /** e.g. `{year}.{lot:3}.{item:2}`; see domain/print/object-number.ts */
    objectNumberPattern: text().notNull().default("{year}.{item:3}"),
    isDemo: integer({ mode: "boolean" }).notNull().default(false),
    createdAt: createdAt(),
  },
  (t) => [check("collection_single", sql`${t.id} = 1`)],
);

/** Who did it. Sign-in comes later; until then the keeper at this machine is the only row. */
export const users = sqliteTable(
  "users",
  {
    id: id(),
    name: text().notNull().unique(),
    role: text({ enum: ["keeper", "cataloguer", "reader"] })
      .notNull()
      .default("keeper"),
    createdAt: createdAt(),
  },
  (t) => [check("users_role", sql`${t.role} in ('keeper', 'cataloguer', 'reader')`)],
);
