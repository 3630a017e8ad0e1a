import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import SQLite from "better-sqlite3";
import { expect, onTestFinished, test } from "vitest";
import { NewerDatabaseError, openDatabase } from "#drizzle/client.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));

function folder(): string {
  const directory = mkdtempSync(path.join(tmpdir(), "solander-client-"));
  onTestFinished(() => rmSync(directory, { recursive: true, force: true }));
  return directory;
}

test("a database opened twice keeps its rows and runs no migration again", () => {
  const file = path.join(folder(), "solander.db");
  const first = openDatabase(file);
  first.$client.exec("INSERT INTO places (kind, name) VALUES ('room', 'Study')");
  first.$client.close();
  const second = openDatabase(file);
  expect(second.$client.prepare("SELECT name FROM places").pluck().all()).toEqual(["Study"]);
  second.$client.close();
});

test("a database of a newer program is refused in plain words and left as it was", () => {
  const file = path.join(folder(), "solander.db");
  openDatabase(file).$client.close();
  const newer = new SQLite(file);
  newer.prepare("INSERT INTO applied_migrations (hash, made_at) VALUES ('from-the-future', 1)").run();
  newer.close();
  expect(() => openDatabase(file)).toThrow(NewerDatabaseError);
  expect(() => openDatabase(file)).toThrow(/newer version of the program. Nothing was changed/);
});

test("a migration that fails half-way leaves the file without any table", () => {
  const file = path.join(folder(), "solander.db");
  const blocked = new SQLite(file);
  // The last table of the first migration exists already: everything before it must be rolled back.
  blocked.exec("CREATE TABLE work (in_the_way TEXT)");
  blocked.close();
  expect(() => openDatabase(file)).toThrow(/work/);
  const after = new SQLite(file);
  expect(after.prepare("SELECT name FROM sqlite_master WHERE type = 'table'").pluck().all()).toEqual(["work"]);
  after.close();
});

test("foreign keys are kept", () => {
  const db = openDatabase(":memory:");
  expect(() =>
    db.$client.exec("INSERT INTO captures (uuid, original_id, side) VALUES ('00000000-0000-4000-8000-000000000000', 99, 'front')"),
  ).toThrow(/FOREIGN KEY/);
  db.$client.close();
});

test("the migrations say all that the schema says: generating makes nothing new", () => {
  const directory = folder();
  cpSync(path.join(ROOT, "migrations"), path.join(directory, "migrations"), { recursive: true });
  const before = readdirSync(path.join(directory, "migrations")).sort();
  const run = spawnSync(
    path.join(ROOT, "node_modules/.bin/drizzle-kit"),
    [
      "generate",
      "--dialect=sqlite",
      "--schema=./drizzle/schema/*.ts",
      `--out=${path.relative(ROOT, path.join(directory, "migrations"))}`,
      "--casing=snake_case",
    ],
    { cwd: ROOT, encoding: "utf8" },
  );
  expect(run.status, run.stdout + run.stderr).toBe(0);
  expect(run.stdout).toContain("No schema changes");
  expect(readdirSync(path.join(directory, "migrations")).sort()).toEqual(before);
});
