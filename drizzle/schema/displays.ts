import { sql } from "drizzle-orm";
import { check, index, integer, real, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { users } from "./collection.ts";
import { createdAt, id } from "./columns.ts";
import { prints } from "./prints.ts";

/** A stretch of days on which a print hung or stood in the light. */
export const displays = sqliteTable(
  "displays",
  {
    id: id(),
    printId: integer()
      .notNull()
      .references(() => prints.id, { onDelete: "cascade" }),
    startsOn: text().notNull(),
    /** the last day; null: it is still on display */
    endsOn: text(),
    lux: real().notNull(),
    hoursPerDay: real().notNull(),
    /** ids of domain/storage/display.ts */
    glazing: text().notNull().default("not-known"),
    note: text(),
    userId: integer().references(() => users.id, { onDelete: "restrict" }),
    createdAt: createdAt(),
  },
  (t) => [
    check("displays_order", sql`${t.endsOn} is null or ${t.endsOn} >= ${t.startsOn}`),
    check("displays_lux", sql`${t.lux} > 0 and ${t.hoursPerDay} > 0 and ${t.hoursPerDay} <= 24`),
    index("displays_of_print").on(t.printId, t.startsOn),
  ],
);
