import { sql } from "drizzle-orm";
import { check, index, integer, real, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { createdAt, id, moment, uuid } from "./columns.ts";
import { places } from "./places.ts";

/**
 * One physical photograph. Process and format are ids of the tables in domain/print, which keep
 * the nominal size with its source; the millimetres here are measured and win over nominal ones.
 */
export const prints = sqliteTable(
  "prints",
  {
    id: id(),
    uuid: uuid(),
    objectNumber: text().notNull().unique(),
    /** digits padded so that 1978.4.9 stands before 1978.4.12 */
    objectNumberSort: text().notNull(),
    title: text().notNull().default(""),
    /** EDTF, as written by the keeper */
    date: text(),
    /** first and last day the date can mean (YYYY-MM-DD, years may exceed four digits); null when open or unknown */
    dateEarliest: text(),
    dateLatest: text(),
    dateGround: text(),
    processId: text().notNull().default("not-known"),
    formatId: text(),
    sheetWidthMm: real(),
    sheetHeightMm: real(),
    imageWidthMm: real(),
    imageHeightMm: real(),
    borderTopMm: real(),
    borderRightMm: real(),
    borderBottomMm: real(),
    borderLeftMm: real(),
    thicknessMm: real(),
    orientation: text({ enum: ["portrait", "landscape", "square"] }),
    maker: text(),
    people: text({ mode: "json" }).$type<string[]>().notNull().default([]),
    subjects: text({ mode: "json" }).$type<string[]>().notNull().default([]),
    inscriptionFront: text(),
    inscriptionBack: text(),
    provenance: text(),
    rightsUri: text(),
    credit: text(),
    valueAmount: real(),
    valueCurrency: text(),
    significance: integer(),
    significanceNote: text(),
    placeId: integer().references(() => places.id, { onDelete: "restrict" }),
    /** when the picture was developed, EDTF as written by the keeper; unknown or wide means: as fresh as it can be */
    processedOn: text(),
    notes: text(),
    /** grows by one with every save, so that two people cannot overwrite each other unseen */
    revision: integer().notNull().default(1),
    binnedAt: moment(),
    createdAt: createdAt(),
    updatedAt: createdAt(),
  },
  (t) => [
    check("prints_number_present", sql`length(trim(${t.objectNumber})) > 0`),
    check("prints_orientation", sql`${t.orientation} in ('portrait', 'landscape', 'square')`),
    check("prints_significance", sql`${t.significance} between 1 and 5`),
    check("prints_value", sql`${t.valueAmount} is null or (${t.valueAmount} >= 0 and ${t.valueCurrency} is not null)`),
    check(
      "prints_sizes",
      sql`ifnull(${t.sheetWidthMm}, 1) > 0 and ifnull(${t.sheetHeightMm}, 1) > 0 and ifnull(${t.imageWidthMm}, 1) > 0 and ifnull(${t.imageHeightMm}, 1) > 0 and ifnull(${t.thicknessMm}, 1) > 0`,
    ),
    check(
      "prints_borders",
      sql`ifnull(${t.borderTopMm}, 0) >= 0 and ifnull(${t.borderRightMm}, 0) >= 0 and ifnull(${t.borderBottomMm}, 0) >= 0 and ifnull(${t.borderLeftMm}, 0) >= 0`,
    ),
    check("prints_lists", sql`json_valid(${t.people}) and json_valid(${t.subjects})`),
    index("prints_by_number").on(t.binnedAt, t.objectNumberSort),
    index("prints_by_date").on(t.dateEarliest, t.dateLatest),
    index("prints_by_place").on(t.placeId),
    index("prints_by_format").on(t.formatId),
    index("prints_by_process").on(t.processId),
  ],
);
