import { sql } from "drizzle-orm";
import { type AnySQLiteColumn, check, index, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import { createdAt, id } from "./columns.ts";

/** Where prints are kept: a tree of room, shelf, box, album, sleeve. */
export const places = sqliteTable(
  "places",
  {
    id: id(),
    parentId: integer().references((): AnySQLiteColumn => places.id, { onDelete: "restrict" }),
    kind: text({ enum: ["building", "room", "cabinet", "shelf", "drawer", "box", "album", "folder", "sleeve"] }).notNull(),
    name: text().notNull(),
    /** ids of the tables in domain/storage/enclosure.ts */
    enclosureKind: text(),
    enclosureMaterial: text(),
    note: text(),
    /** grows by one with every save, so that two people cannot overwrite each other unseen */
    revision: integer().notNull().default(1),
    createdAt: createdAt(),
  },
  (t) => [
    check("places_kind", sql`${t.kind} in ('building', 'room', 'cabinet', 'shelf', 'drawer', 'box', 'album', 'folder', 'sleeve')`),
    check("places_not_own_parent", sql`${t.parentId} is null or ${t.parentId} <> ${t.id}`),
    uniqueIndex("places_name_in_parent").on(t.parentId, t.name),
    uniqueIndex("places_name_at_top").on(t.name).where(sql`parent_id is null`),
    index("places_parent").on(t.parentId),
  ],
);
