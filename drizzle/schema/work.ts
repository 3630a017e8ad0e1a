import { sql } from "drizzle-orm";
import { check, index, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import { captures } from "./captures.ts";
import { createdAt, id, moment } from "./columns.ts";
import { prints } from "./prints.ts";

/**
 * Work that takes longer than an answer. A row is claimed with a lease, so that work whose
 * process died goes back to waiting; a capture has at most one open row of a kind.
 */
export const work = sqliteTable(
  "work",
  {
    id: id(),
    kind: text({ enum: ["measure", "compare"] }).notNull(),
    captureId: integer().references(() => captures.id, { onDelete: "cascade" }),
    /** compare looks at all captures of one side of a print together */
    printId: integer().references(() => prints.id, { onDelete: "cascade" }),
    side: text({ enum: ["front", "back"] }),
    state: text({ enum: ["waiting", "running", "done", "failed", "cancelled"] })
      .notNull()
      .default("waiting"),
    attempts: integer().notNull().default(0),
    leaseUntil: moment(),
    /** in words for the keeper: what happened and what to do */
    error: text(),
    createdAt: createdAt(),
    startedAt: moment(),
    finishedAt: moment(),
  },
  (t) => [
    check(
      "work_subject",
      sql`(${t.kind} = 'measure' and ${t.captureId} is not null) or (${t.kind} = 'compare' and ${t.printId} is not null and ${t.side} is not null)`,
    ),
    check("work_state", sql`${t.state} in ('waiting', 'running', 'done', 'failed', 'cancelled')`),
    index("work_by_state").on(t.state, t.id),
    uniqueIndex("work_open_measure").on(t.captureId).where(sql`kind = 'measure' and state in ('waiting', 'running')`),
    uniqueIndex("work_open_compare").on(t.printId, t.side).where(sql`kind = 'compare' and state = 'waiting'`),
  ],
);
