import { sql } from "drizzle-orm";
import { check, index, integer, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { users } from "./collection.ts";
import { createdAt, id } from "./columns.ts";
import { places } from "./places.ts";

/** One file of a logger that was read into a place, or one lot of typed readings. */
export const climateImports = sqliteTable(
  "climate_imports",
  {
    id: id(),
    placeId: integer()
      .notNull()
      .references(() => places.id, { onDelete: "restrict" }),
    /** the file's name as it came; null where the readings were typed */
    fileName: text(),
    /** how the columns were read, as domain/storage/logger-mapping.ts has it */
    mapping: text({ mode: "json" }).$type<Record<string, unknown>>().notNull().default({}),
    /** what was taken over and what was not, as domain/storage/import-report.ts has it */
    report: text({ mode: "json" }).$type<Record<string, unknown>>().notNull().default({}),
    readingCount: integer().notNull(),
    userId: integer().references(() => users.id, { onDelete: "restrict" }),
    createdAt: createdAt(),
  },
  (t) => [check("climate_imports_count", sql`${t.readingCount} >= 0`), index("climate_imports_of_place").on(t.placeId, t.id)],
);

/**
 * Readings of temperature and relative humidity, in whole hundredths so that a row takes about 20 bytes. The migration
 * keeps the table in the order of its key (WITHOUT ROWID): a place's readings of a stretch of time lie side by side.
 */
export const climateReadings = sqliteTable(
  "climate_readings",
  {
    placeId: integer()
      .notNull()
      .references(() => places.id, { onDelete: "restrict" }),
    /** seconds since 1970-01-01T00:00:00Z */
    atSeconds: integer().notNull(),
    temperatureCentiC: integer(),
    humidityCentiPercent: integer(),
    importId: integer()
      .notNull()
      .references(() => climateImports.id, { onDelete: "restrict" }),
  },
  (t) => [
    primaryKey({ columns: [t.placeId, t.atSeconds] }),
    check("climate_readings_something", sql`${t.temperatureCentiC} is not null or ${t.humidityCentiPercent} is not null`),
    check("climate_readings_humidity", sql`${t.humidityCentiPercent} is null or ${t.humidityCentiPercent} between 0 and 10000`),
  ],
);
