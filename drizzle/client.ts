import { fileURLToPath } from "node:url";
import SQLite from "better-sqlite3";
import { type BetterSQLite3Database, drizzle } from "drizzle-orm/better-sqlite3";
import { readMigrationFiles } from "drizzle-orm/migrator";
import type { BaseSQLiteDatabase } from "drizzle-orm/sqlite-core";
import * as captures from "./schema/captures.ts";
import * as choices from "./schema/choices.ts";
import * as climate from "./schema/climate.ts";
import * as collection from "./schema/collection.ts";
import * as condition from "./schema/condition.ts";
import * as displays from "./schema/displays.ts";
import * as events from "./schema/events.ts";
import * as eyeChecks from "./schema/eye-checks.ts";
import * as measures from "./schema/measures.ts";
import * as places from "./schema/places.ts";
import * as prints from "./schema/prints.ts";
import * as rounds from "./schema/rounds.ts";
import * as targetChecks from "./schema/target-checks.ts";
import * as work from "./schema/work.ts";
import * as workSheets from "./schema/work-sheets.ts";

export const schema = {
  ...captures,
  ...choices,
  ...climate,
  ...collection,
  ...condition,
  ...displays,
  ...events,
  ...eyeChecks,
  ...measures,
  ...places,
  ...prints,
  ...rounds,
  ...targetChecks,
  ...work,
  ...workSheets,
};

/** The database or an open transaction of it: what every query asks for. */
export type Queryable = BaseSQLiteDatabase<"sync", SQLite.RunResult, typeof schema>;

export type Database = BetterSQLite3Database<typeof schema> & { readonly $client: SQLite.Database };

const MIGRATIONS = fileURLToPath(new URL("../migrations", import.meta.url));

/** A database written by a newer program: opening it could lose what this one does not know. */
export class NewerDatabaseError extends Error {
  override name = "NewerDatabaseError";
}

/**
 * Opens (or makes) the database of a collection and brings it up to date. All missing migrations
 * run in one transaction: after a crash the file is as it was before.
 * @param file path of solander.db, or ":memory:" for tests
 * @throws NewerDatabaseError when the file knows migrations that this program does not
 */
export function openDatabase(file: string | Buffer): Database {
  const sqlite = new SQLite(file);
  sqlite.pragma("journal_mode = WAL");
  sqlite.pragma("synchronous = FULL");
  sqlite.pragma("foreign_keys = ON");
  sqlite.pragma("busy_timeout = 10000");
  try {
    migrate(sqlite);
  } catch (error) {
    sqlite.close();
    throw error;
  }
  return writingAtOnce(drizzle(sqlite, { schema, casing: "snake_case" }));
}

/**
 * Every transaction takes the writer's place at its start and waits for it. SQLite refuses, without
 * waiting, a reader that turns writer after another process wrote (SQLITE_BUSY_SNAPSHOT).
 */
function writingAtOnce(db: Database): Database {
  const transaction = db.transaction.bind(db);
  db.transaction = (work, config) => transaction(work, { behavior: "immediate", ...config });
  return db;
}

function migrate(sqlite: SQLite.Database): void {
  const known = readMigrationFiles({ migrationsFolder: MIGRATIONS });
  const bringUpToDate = sqlite.transaction(() => {
    sqlite.exec("CREATE TABLE IF NOT EXISTS applied_migrations (hash TEXT PRIMARY KEY, made_at INTEGER NOT NULL) STRICT");
    const applied = new Set(sqlite.prepare("SELECT hash FROM applied_migrations").pluck().all() as string[]);
    const strangers = [...applied].filter((hash) => !known.some((migration) => migration.hash === hash));
    if (strangers.length > 0) {
      throw new NewerDatabaseError(
        "This collection was last opened by a newer version of the program. Nothing was changed. Update the program, or restore a backup made by this version.",
      );
    }
    const remember = sqlite.prepare("INSERT INTO applied_migrations (hash, made_at) VALUES (?, ?)");
    for (const migration of known) {
      if (applied.has(migration.hash)) continue;
      for (const statement of migration.sql) if (statement.trim() !== "") sqlite.exec(statement);
      remember.run(migration.hash, migration.folderMillis);
    }
  });
  bringUpToDate.immediate();
}
