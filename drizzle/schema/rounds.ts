import { sql } from "drizzle-orm";
import { check, index, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import type { DrawnSample } from "#domain/condition/round.ts";
import { users } from "./collection.ts";
import { createdAt, id, moment } from "./columns.ts";
import { surveys } from "./condition.ts";
import { places } from "./places.ts";
import { prints } from "./prints.ts";

/** Many prints looked at one after another: those of a place, or a sample drawn from the collection. */
export const rounds = sqliteTable(
  "rounds",
  {
    id: id(),
    name: text().notNull(),
    placeId: integer().references(() => places.id, { onDelete: "set null" }),
    /** how it was drawn, so that it can be drawn again; null: every print of the place */
    sample: text({ mode: "json" }).$type<DrawnSample>(),
    userId: integer().references(() => users.id, { onDelete: "restrict" }),
    startedAt: createdAt(),
  },
  (t) => [check("rounds_sample", sql`${t.sample} is null or json_valid(${t.sample})`)],
);

/** The prints of a round in the order in which they are looked at. */
export const roundPrints = sqliteTable(
  "round_prints",
  {
    id: id(),
    roundId: integer()
      .notNull()
      .references(() => rounds.id, { onDelete: "cascade" }),
    printId: integer()
      .notNull()
      .references(() => prints.id, { onDelete: "cascade" }),
    position: integer().notNull(),
    /** the look that was kept; null: not looked at yet */
    surveyId: integer().references(() => surveys.id, { onDelete: "set null" }),
    /** passed over for now */
    passedAt: moment(),
  },
  (t) => [uniqueIndex("round_prints_once").on(t.roundId, t.printId), index("round_prints_in_order").on(t.roundId, t.position)],
);
