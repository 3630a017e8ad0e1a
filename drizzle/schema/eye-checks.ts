import { sql } from "drizzle-orm";
import { check, index, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import { captures } from "./captures.ts";
import { aims, purposes } from "./choices.ts";
import { users } from "./collection.ts";
import { createdAt, id, moment, uuid } from "./columns.ts";
import { prints } from "./prints.ts";

/** Two captures of one side shown without names, and which of them a person found better. Answers are never changed. */
export const eyeChecks = sqliteTable(
  "eye_checks",
  {
    id: id(),
    /** what the pages and pictures are asked for by: it tells nothing of what is shown */
    address: uuid(),
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
    leftId: integer()
      .notNull()
      .references(() => captures.id, { onDelete: "cascade" }),
    rightId: integer()
      .notNull()
      .references(() => captures.id, { onDelete: "cascade" }),
    /** the one of the two that the rule preferred when they were drawn */
    ruleId: integer()
      .notNull()
      .references(() => captures.id, { onDelete: "cascade" }),
    /** the measure that decided then; null where none did */
    decisive: text(),
    closeCall: integer({ mode: "boolean" }).notNull(),
    userId: integer()
      .notNull()
      .references(() => users.id, { onDelete: "restrict" }),
    createdAt: createdAt(),
    /** null: not answered yet; not-shown: the pictures could not be made */
    answer: text({ enum: ["left", "right", "cannot-tell", "not-shown"] }),
    answeredAt: moment(),
  },
  (t) => [
    check("eye_checks_two", sql`${t.leftId} <> ${t.rightId} and ${t.ruleId} in (${t.leftId}, ${t.rightId})`),
    uniqueIndex("eye_checks_open").on(t.userId, t.printId, t.side, t.purposeId).where(sql`answer is null`),
    index("eye_checks_of_purpose").on(t.purposeId, t.answer),
  ],
);
