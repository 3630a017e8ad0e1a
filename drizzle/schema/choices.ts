import { sql } from "drizzle-orm";
import { check, index, integer, real, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import { captures } from "./captures.ts";
import { users } from "./collection.ts";
import { createdAt, id, moment } from "./columns.ts";
import { prints } from "./prints.ts";

/** What a master is for: preservation master, reproduction, screen. */
export const purposes = sqliteTable("purposes", {
  id: id(),
  key: text().notNull().unique(),
  name: text().notNull(),
  note: text(),
  position: integer().notNull(),
  /** nothing is chosen for it any more, and screens leave it out; null: it is in use */
  setAsideAt: moment(),
});

/** The limits a purpose asks of the measures. Every version is kept; one is current. */
export const aims = sqliteTable(
  "aims",
  {
    id: id(),
    purposeId: integer()
      .notNull()
      .references(() => purposes.id, { onDelete: "restrict" }),
    name: text().notNull(),
    version: integer().notNull(),
    /** the published table it is built on, with edition, e.g. "FADGI 2016, 3 star" */
    edition: text().notNull(),
    current: integer({ mode: "boolean" }).notNull(),
    /** what was changed and why, in the keeper's words */
    note: text(),
    /** null: the program, with a ready-made aim */
    userId: integer().references(() => users.id, { onDelete: "restrict" }),
    createdAt: createdAt(),
  },
  (t) => [uniqueIndex("aims_version").on(t.purposeId, t.version), uniqueIndex("aims_current").on(t.purposeId).where(sql`current = 1`)],
);

export const aimLimits = sqliteTable(
  "aim_limits",
  {
    id: id(),
    aimId: integer()
      .notNull()
      .references(() => aims.id, { onDelete: "cascade" }),
    measure: text().notNull(),
    sense: text({ enum: ["at-least", "at-most", "between"] }).notNull(),
    /** desirability is 0 at `worst` (both ends for between) and 1 at `best` */
    lowest: real(),
    best: real().notNull(),
    highest: real(),
    weight: real().notNull(),
    /** the value a capture must reach to be master at all; null where the limit only counts */
    requiredAtLeast: real(),
    requiredAtMost: real(),
    /** a print's own capture can prove it, or only a target check of the set-up can */
    provedBy: text({ enum: ["print", "target"] }).notNull(),
    source: text().notNull(),
    /** how well the figure is known: read in the standard, quoted by others, remembered, own choice */
    sourceStatus: text({ enum: ["standard", "secondary", "memory", "own"] }).notNull(),
  },
  (t) => [uniqueIndex("aim_limits_once").on(t.aimId, t.measure), check("aim_limits_weight", sql`${t.weight} >= 0`)],
);

/** Which capture is the master of a print for a purpose, and why. Superseded rows are the history. */
export const choices = sqliteTable(
  "choices",
  {
    id: id(),
    printId: integer()
      .notNull()
      .references(() => prints.id, { onDelete: "cascade" }),
    side: text({ enum: ["front", "back"] }).notNull(),
    purposeId: integer()
      .notNull()
      .references(() => purposes.id, { onDelete: "restrict" }),
    aimId: integer()
      .notNull()
      .references(() => aims.id, { onDelete: "restrict" }),
    /** null: no capture meets the requirements */
    captureId: integer().references(() => captures.id, { onDelete: "cascade" }),
    runnerUpId: integer().references(() => captures.id, { onDelete: "set null" }),
    decidedBy: text({ enum: ["rule", "person"] }).notNull(),
    userId: integer().references(() => users.id, { onDelete: "restrict" }),
    /** a person's own words when overruling */
    reason: text(),
    /** one plain sentence */
    sentence: text().notNull(),
    /** desirability per capture and measure, failed requirements, domination, doubt: domain/master/judgement.ts */
    explanation: text({ mode: "json" }).$type<unknown>().notNull(),
    createdAt: createdAt(),
    supersededAt: moment(),
  },
  (t) => [
    check("choices_person_says_why", sql`${t.decidedBy} = 'rule' or length(trim(ifnull(${t.reason}, ''))) > 0`),
    uniqueIndex("choices_current").on(t.printId, t.side, t.purposeId).where(sql`superseded_at is null`),
    index("choices_of_capture").on(t.captureId),
    // few of all: without it every explanation of the collection is read to find them
    index("choices_too_close")
      .on(t.printId)
      .where(sql`superseded_at is null and decided_by = 'rule' and json_extract(explanation, '$.closeCall') = 1`),
  ],
);

/**
 * What the best capture of a choice lacks, a row for each requirement not met: as in the explanation, kept apart so that
 * lists and counts need not read it. Written with the choice and never changed.
 */
export const shortfalls = sqliteTable(
  "shortfalls",
  {
    id: id(),
    choiceId: integer()
      .notNull()
      .references(() => choices.id, { onDelete: "cascade" }),
    /** the master, or else the capture nearest to being it */
    captureId: integer()
      .notNull()
      .references(() => captures.id, { onDelete: "cascade" }),
    measure: text().notNull(),
  },
  (t) => [uniqueIndex("shortfalls_once").on(t.choiceId, t.measure), index("shortfalls_of_capture").on(t.captureId)],
);

/** A later, better capture that the rule would put in the place of a person's choice. At most one waits for each choice. */
export const proposals = sqliteTable(
  "proposals",
  {
    id: id(),
    choiceId: integer()
      .notNull()
      .references(() => choices.id, { onDelete: "cascade" }),
    captureId: integer()
      .notNull()
      .references(() => captures.id, { onDelete: "cascade" }),
    aimId: integer()
      .notNull()
      .references(() => aims.id, { onDelete: "restrict" }),
    sentence: text().notNull(),
    createdAt: createdAt(),
    /** null: it waits; lapsed: what it rested on is so no more */
    answer: text({ enum: ["accepted", "declined", "lapsed"] }),
    answeredAt: moment(),
    userId: integer().references(() => users.id, { onDelete: "restrict" }),
  },
  (t) => [uniqueIndex("proposals_open").on(t.choiceId).where(sql`answer is null`), index("proposals_of_capture").on(t.captureId)],
);
