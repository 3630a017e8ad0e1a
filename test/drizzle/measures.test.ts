import { fileURLToPath } from "node:url";
import SQLite from "better-sqlite3";
import { readMigrationFiles } from "drizzle-orm/migrator";
import { expect, test } from "vitest";
import { MEASURE_NAMES } from "#domain/measure/catalogue.ts";
import type { Reading } from "#domain/measure/reading.ts";
import { openDatabase } from "#drizzle/client.ts";
import { readingsOfCaptures, replaceReadings } from "#drizzle/queries/measures.ts";
import { keptPrint, measuredCapture } from "../fixtures/captured-print.ts";

const HINT: Reading = { name: "glareAreaPercent", value: 7, reliability: "weak" };
const COMPARED: Reading = { name: "glareAreaPercent", value: 3, reliability: "firm" };
const NOT_COMPARED: Reading = { name: "glareAreaPercent", absent: "it could not be lined up" };
const NOT_READ: Reading = { name: "glareAreaPercent", absent: "the print was not found" };

test.each([
  ["a comparison takes the place of a hint", HINT, COMPARED, { value: 3, family: "together" }],
  ["a hint holds where no comparison came about", HINT, NOT_COMPARED, { value: 7, family: "alone" }],
  ["a comparison holds where the capture alone told nothing", NOT_READ, COMPARED, { value: 3, family: "together" }],
  ["of two reasons, that of the comparison is told", NOT_READ, NOT_COMPARED, { absent: "it could not be lined up" }],
])("of one measure one reading holds: %s", (_, alone, together, expected) => {
  const db = openDatabase(":memory:");
  const captureId = measuredCapture(db, keptPrint(db, "1"), {});
  replaceReadings(db, captureId, "alone", {
    readings: [alone, { name: "lossless", value: 1, reliability: "firm" }],
    basis: {},
    durationMs: null,
  });
  replaceReadings(db, captureId, "together", { readings: [together], basis: {}, durationMs: null });
  const kept = readingsOfCaptures(db, [captureId]).get(captureId) ?? [];
  expect(kept.filter(({ name }) => name === "glareAreaPercent")).toMatchObject([expected]);
  expect(kept.map(({ name }) => name)).toContain("lossless");
});

test("what was read, asked and chosen before the measures carried their units keeps its meaning", () => {
  const sqlite = new SQLite(":memory:");
  const migrations = readMigrationFiles({ migrationsFolder: fileURLToPath(new URL("../../migrations", import.meta.url)) });
  for (const statement of migrations.slice(0, 2).flatMap(({ sql }) => sql)) sqlite.exec(statement);
  sqlite.pragma("foreign_keys = OFF");
  const insert = sqlite.prepare(
    "INSERT INTO measures (set_id, name, method_version, value, unit, reliability) VALUES (?, ?, 1, 1, '', 'firm')",
  );
  for (const name of ["sampling", "keystone", "possible-glare", "lossless"]) insert.run(1, name);
  insert.run(2, "glare");
  sqlite.exec(`INSERT INTO choices (print_id, side, purpose_id, aim_id, decided_by, sentence, explanation, created_at)
    VALUES (1, 'front', 1, 1, 'rule', 'x', '{"shortfalls":[{"measure":"sampling"},{"measure":"tone-response"}]}', '2026-01-01')`);
  for (const statement of migrations[2]?.sql ?? []) sqlite.exec(statement);
  const names = sqlite.prepare("SELECT name FROM measures ORDER BY id").pluck().all() as string[];
  expect(names).toEqual(["samplingPpi", "keystonePercent", "glareAreaPercent", "lossless", "glareAreaPercent"]);
  expect(MEASURE_NAMES).toEqual(expect.arrayContaining(names));
  expect(sqlite.prepare("SELECT explanation FROM choices").pluck().get()).toBe(
    '{"shortfalls":[{"measure":"samplingPpi"},{"measure":"toneResponseDeltaL"}]}',
  );
});
