import { sql } from "drizzle-orm";
import { type AnySQLiteColumn, check, index, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import { captures, originals } from "./captures.ts";
import { users } from "./collection.ts";
import { createdAt, id, moment, uuid } from "./columns.ts";
import { prints } from "./prints.ts";

/** One look at a print's condition on a day by a person: the one who looked, as typed, need not be the one who keeps the collection. */
export const surveys = sqliteTable(
  "surveys",
  {
    id: id(),
    uuid: uuid(),
    printId: integer()
      .notNull()
      .references(() => prints.id, { onDelete: "cascade" }),
    surveyedOn: text().notNull(),
    lookedAtBy: text(),
    userId: integer().references(() => users.id, { onDelete: "restrict" }),
    grade: text({ enum: ["good", "fair", "poor", "unacceptable"] }),
    gradeBasis: text({ enum: ["proposed", "said"] }),
    stability: text({ enum: ["stable", "unstable", "not-known"] })
      .notNull()
      .default("not-known"),
    note: text(),
    finishedAt: moment(),
    createdAt: createdAt(),
  },
  (t) => [
    check("surveys_grade", sql`${t.grade} in ('good', 'fair', 'poor', 'unacceptable')`),
    index("surveys_of_print").on(t.printId, t.surveyedOn),
  ],
);

/** One thing found, with term, severity and region; the same thing in a later survey points back. */
export const findings = sqliteTable(
  "findings",
  {
    id: id(),
    uuid: uuid(),
    surveyId: integer()
      .notNull()
      .references(() => surveys.id, { onDelete: "cascade" }),
    term: text().notNull(),
    severity: integer().notNull(),
    extent: text({ enum: ["under-2", "2-to-10", "10-to-30", "over-30"] }),
    activity: text({ enum: ["active", "stable", "not-known"] })
      .notNull()
      .default("not-known"),
    side: text({ enum: ["front", "back"] })
      .notNull()
      .default("front"),
    note: text(),
    captureId: integer().references(() => captures.id, { onDelete: "set null" }),
    earlierFindingId: integer().references((): AnySQLiteColumn => findings.id, { onDelete: "set null" }),
    change: text({ enum: ["better", "same", "worse", "gone"] }),
    createdAt: createdAt(),
  },
  (t) => [
    check("findings_severity", sql`${t.severity} between 0 and 4`),
    index("findings_of_survey").on(t.surveyId),
    index("findings_by_term").on(t.term, t.severity),
  ],
);

/** Rectangle or polygon in mm from the print's top left, so that it holds for every capture. */
export const findingRegions = sqliteTable(
  "finding_regions",
  {
    id: id(),
    findingId: integer()
      .notNull()
      .references(() => findings.id, { onDelete: "cascade" }),
    pointsMm: text({ mode: "json" }).$type<{ xMm: number; yMm: number }[]>().notNull(),
  },
  (t) => [
    check("finding_regions_points", sql`json_valid(${t.pointsMm}) and json_array_length(${t.pointsMm}) >= 3`),
    index("regions_of_finding").on(t.findingId),
  ],
);

/** A photograph of one thing found. Its file is an original like every other, without being a capture of the print. */
export const findingPhotographs = sqliteTable(
  "finding_photographs",
  {
    id: id(),
    findingId: integer()
      .notNull()
      .references(() => findings.id, { onDelete: "cascade" }),
    originalId: integer()
      .notNull()
      .references(() => originals.id, { onDelete: "restrict" }),
    caption: text(),
    userId: integer().references(() => users.id, { onDelete: "restrict" }),
    createdAt: createdAt(),
  },
  (t) => [uniqueIndex("photographs_of_finding").on(t.findingId, t.originalId), index("findings_of_photograph").on(t.originalId)],
);
