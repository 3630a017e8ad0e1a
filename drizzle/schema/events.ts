import { index, integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { users } from "./collection.ts";
import { createdAt, id } from "./columns.ts";

/** The history of every record. Rows are only ever added: triggers in the migration refuse the rest. */
export const events = sqliteTable(
  "events",
  {
    id: id(),
    at: createdAt(),
    userId: integer().references(() => users.id, { onDelete: "restrict" }),
    /** what was done, as a past participle: created, edited, binned, restored, taken in, assigned, chosen … */
    verb: text().notNull(),
    subject: text({
      enum: ["collection", "place", "print", "capture", "set-up", "survey", "round", "choice", "aim", "display", "work-sheet", "exemption"],
    }).notNull(),
    subjectId: integer().notNull(),
    /** the print this belongs to, so that one query gives a print's whole history */
    printId: integer(),
    detail: text({ mode: "json" }).$type<Record<string, unknown>>().notNull().default({}),
  },
  (t) => [index("events_of_print").on(t.printId, t.id), index("events_of_subject").on(t.subject, t.subjectId)],
);
