import { index, integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Quad } from "#domain/measure/picture.ts";
import type { KeptTargetRead } from "#domain/target/kept-read.ts";
import type { TargetLayout } from "#domain/target/layout.ts";
import { originals, setUps } from "./captures.ts";
import { users } from "./collection.ts";
import { createdAt, id, uuid } from "./columns.ts";

/** One picture of a test target taken with a set-up, and what it proved. Its file is an original without being a capture of a print. */
export const targetChecks = sqliteTable(
  "target_checks",
  {
    id: id(),
    uuid: uuid(),
    setUpId: integer()
      .notNull()
      .references(() => setUps.id, { onDelete: "restrict" }),
    originalId: integer()
      .notNull()
      .references(() => originals.id, { onDelete: "restrict" }),
    /** YYYY-MM-DD */
    takenOn: text().notNull(),
    /** null for a plain sheet that fills the frame, which tells evenness alone */
    layout: text({ mode: "json" }).$type<TargetLayout>(),
    /** the reference file as it came; null where there was none */
    reference: text(),
    referenceName: text(),
    /** corners of the target that a person set; null where they are looked for */
    saidOutline: text({ mode: "json" }).$type<Quad>(),
    /** null where the target was not found and waits for somebody to set its corners */
    read: text({ mode: "json" }).$type<KeptTargetRead>(),
    note: text(),
    userId: integer().references(() => users.id, { onDelete: "restrict" }),
    createdAt: createdAt(),
  },
  (t) => [index("checks_of_set_up").on(t.setUpId, t.takenOn), index("checks_of_original").on(t.originalId)],
);
