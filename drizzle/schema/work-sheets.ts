import { sql } from "drizzle-orm";
import { check, index, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import { METHODS } from "#domain/capture/method.ts";
import { ROW_STATES } from "#domain/recapture/judged-row.ts";
import type { Advice, RecaptureReason } from "#domain/recapture/recapture-line.ts";
import type { RecapturePriority } from "#domain/recapture/recapture-priority.ts";
import { captures } from "./captures.ts";
import { aims, purposes } from "./choices.ts";
import { users } from "./collection.ts";
import { createdAt, id, moment, uuid } from "./columns.ts";
import { prints } from "./prints.ts";

/** A list to go to the copy stand with: what was to be captured again on the day it was made. */
export const workSheets = sqliteTable("work_sheets", {
  id: id(),
  uuid: uuid(),
  name: text().notNull(),
  purposeId: integer()
    .notNull()
    .references(() => purposes.id, { onDelete: "restrict" }),
  userId: integer().references(() => users.id, { onDelete: "restrict" }),
  createdAt: createdAt(),
  /** when somebody put the finished sheet out of sight; it can be taken out again */
  putAwayAt: moment(),
});

/** One side of a print on a work sheet. Why and what to change are as they were when it was last judged. */
export const workSheetRows = sqliteTable(
  "work_sheet_rows",
  {
    id: id(),
    sheetId: integer()
      .notNull()
      .references(() => workSheets.id, { onDelete: "cascade" }),
    printId: integer()
      .notNull()
      .references(() => prints.id, { onDelete: "cascade" }),
    side: text({ enum: ["front", "back"] }).notNull(),
    position: integer().notNull(),
    placePath: text({ mode: "json" }).$type<string[]>().notNull(),
    /** how it is to be captured; null where only a conservator can say */
    method: text({ enum: METHODS }),
    setUpName: text(),
    priority: text({ mode: "json" }).$type<RecapturePriority>().notNull(),
    reasons: text({ mode: "json" }).$type<RecaptureReason[]>().notNull(),
    advice: text({ mode: "json" }).$type<Advice[]>().notNull(),
    /** the capture that the reasons speak of; null where there was none */
    captureId: integer().references(() => captures.id, { onDelete: "set null" }),
    /** captures of that side which were judged already, so that new ones are told from them */
    knownCaptureIds: text({ mode: "json" }).$type<number[]>().notNull(),
    state: text({ enum: ROW_STATES }).notNull().default("open"),
    /** when the state last changed */
    changedAt: moment(),
    /** a capture that was taken in since and fell short as well; null where the row was not opened again */
    openedAgainAt: moment(),
    /** the capture that closed it; null where the aim or a person's choice did */
    closedByCaptureId: integer().references(() => captures.id, { onDelete: "set null" }),
  },
  (t) => [
    check("work_sheet_rows_state", sql`${t.state} in ('open', 'ticked', 'closed', 'let-go')`),
    uniqueIndex("work_sheet_rows_once").on(t.sheetId, t.printId, t.side),
    index("work_sheet_rows_of_print").on(t.printId, t.side),
  ],
);

/** A person's word that one side is good enough as it is and not to be asked for again. Rows stay as history. */
export const recaptureExemptions = sqliteTable(
  "recapture_exemptions",
  {
    id: id(),
    printId: integer()
      .notNull()
      .references(() => prints.id, { onDelete: "cascade" }),
    side: text({ enum: ["front", "back"] }).notNull(),
    purposeId: integer()
      .notNull()
      .references(() => purposes.id, { onDelete: "restrict" }),
    /** the version of the aim it fell short of; another version asks again */
    aimId: integer()
      .notNull()
      .references(() => aims.id, { onDelete: "restrict" }),
    /** the best capture then; null: there was none, and a first one is not to be asked for */
    captureId: integer().references(() => captures.id, { onDelete: "cascade" }),
    reason: text().notNull(),
    userId: integer().references(() => users.id, { onDelete: "restrict" }),
    createdAt: createdAt(),
    takenBackAt: moment(),
  },
  (t) => [
    check("recapture_exemptions_why", sql`length(trim(${t.reason})) > 0`),
    index("recapture_exemptions_of_print").on(t.printId, t.side),
  ],
);
