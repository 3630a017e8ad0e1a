import { sql } from "drizzle-orm";
import { blob, check, index, integer, real, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import { captures } from "./captures.ts";
import { createdAt, id } from "./columns.ts";

/**
 * One reading of everything in one capture at one time. A newer set takes the place of an older
 * one only when it is whole: `current` moves in the transaction that writes the last value.
 */
export const measureSets = sqliteTable(
  "measure_sets",
  {
    id: id(),
    captureId: integer()
      .notNull()
      .references(() => captures.id, { onDelete: "cascade" }),
    /** alone: from this capture's pixels; together: with the print's other captures */
    family: text({ enum: ["alone", "together"] }).notNull(),
    current: integer({ mode: "boolean" }).notNull(),
    /** the size the scale was read from, and where it came from */
    basis: text({ mode: "json" }).$type<Record<string, unknown>>().notNull(),
    durationMs: integer(),
    createdAt: createdAt(),
  },
  (t) => [
    uniqueIndex("measure_sets_current").on(t.captureId, t.family).where(sql`current = 1`),
    index("measure_sets_of_capture").on(t.captureId),
  ],
);

/** One quantity: a value with its unit and reliability, or the reason why there is none. */
export const measures = sqliteTable(
  "measures",
  {
    id: id(),
    setId: integer()
      .notNull()
      .references(() => measureSets.id, { onDelete: "cascade" }),
    name: text().notNull(),
    methodVersion: integer().notNull(),
    value: real(),
    unit: text().notNull(),
    spread: real(),
    bound: text({ enum: ["lower", "upper"] }),
    reliability: text({ enum: ["firm", "fair", "weak"] }),
    absentReason: text(),
    note: text(),
    /** where on the capture, and the parts of the reading: see domain/measure/reading.ts */
    detail: text({ mode: "json" }).$type<Record<string, unknown>>(),
  },
  (t) => [
    check("measures_value_or_reason", sql`(${t.value} is null) <> (${t.absentReason} is null)`),
    check("measures_reliability", sql`(${t.value} is null) = (${t.reliability} is null)`),
    uniqueIndex("measures_once_in_set").on(t.setId, t.name),
    index("measures_by_name").on(t.name, t.value),
    index("measures_by_version").on(t.name, t.methodVersion, t.setId),
  ],
);

/** What a capture's picture looks like from afar, by which its print is known again: see domain/measure/likeness/fingerprint.ts. */
export const fingerprints = sqliteTable("fingerprints", {
  captureId: integer()
    .primaryKey()
    .references(() => captures.id, { onDelete: "cascade" }),
  /** of the print that was found, 32-bit floats, little-endian; null where none was */
  print: blob({ mode: "buffer" }),
  /** of the whole frame, where what was found may not be the print */
  frame: blob({ mode: "buffer" }),
});
