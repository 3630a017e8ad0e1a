import { writeFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import type { LoggerMapping } from "#domain/storage/climate/logger-mapping.ts";
import { climateSeries, listClimateImports, readingSpan } from "#drizzle/queries/climate.ts";
import { historyOf } from "#drizzle/queries/events.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import { importClimate } from "#server/actions/import-climate.ts";
import { takeBackClimate } from "#server/actions/take-back-climate.ts";
import { typeClimate } from "#server/actions/type-climate.ts";
import type { Context } from "#server/context.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const MAPPING: LoggerMapping = {
  delimiter: "comma",
  firstRow: 2,
  timeColumn: 1,
  clockColumn: null,
  dateOrder: "year-month-day",
  timeZone: "UTC",
  temperatureColumn: 2,
  temperatureUnit: "celsius",
  humidityColumn: 3,
  decimalSign: "point",
};
const at = (text: string): number => Date.parse(`${text}Z`) / 1000;

function room(): { context: Context; placeId: number } {
  const context = emptyCollection();
  return { context, placeId: insertPlace(context.db, { parentId: null, kind: "room", name: "Study" }) };
}

function written(context: Context, text: string): { file: string; fileName: string } {
  const file = path.join(context.folder.exports, "logger.csv");
  writeFileSync(file, text);
  return { file, fileName: "logger.csv" };
}

const ROWS = [
  "time,t,rh",
  "2026-03-01 10:00,18.5,42",
  "2026-03-01 10:10,18.6,43",
  "2026-03-01 10:10,18.6,43",
  "2026-03-01 10:10,19.9,43",
  "",
  "2026-03-01 10:20,850,44",
  "2026-03-01 10:30,18.7,44",
  "2026-03-01 14:30,18.7,44",
  "garbage,18,40",
].join("\n");

test("readings come in with doubled, implausible and unreadable rows named by their numbers, and gaps", async () => {
  const { context, placeId } = room();
  const made = await importClimate(context, { placeId, ...written(context, ROWS), mapping: MAPPING });
  if (!made.ok) throw new Error(JSON.stringify(made));
  const { report } = made.value;
  expect(report).toMatchObject({ rows: 10, kept: 5, usualStepSeconds: 600, gapCount: 1, longestGapSeconds: 4 * 3600 });
  expect(report.gaps).toEqual([{ afterRow: 8, beforeRow: 9, fromSeconds: at("2026-03-01T10:30:00"), seconds: 4 * 3600 }]);
  const named = Object.fromEntries(report.problems.map(({ problem, named: rows }) => [problem, rows.map(({ row }) => row)]));
  expect(named).toEqual({ "twice-same": [4], "twice-different": [5], "temperature-implausible": [7], "time-unreadable": [10] });
  const series = climateSeries(context.db, placeId, at("2026-03-01T00:00:00"), at("2026-03-02T00:00:00"));
  expect([...series.temperatureC].map((value) => (Number.isNaN(value) ? null : Math.round(value * 10) / 10))).toEqual([
    18.5,
    18.6,
    null,
    18.7,
    18.7,
  ]);
  expect([...series.humidityPercent]).toEqual([42, 43, 44, 44, 44]);
  expect(historyOf(context.db, "place", placeId)[0]).toMatchObject({ verb: "climate imported", detail: { readings: 5 } });
});

test("rows in any order come in by their time", async () => {
  const { context, placeId } = room();
  const text = "time,t,rh\n2026-03-01 12:00,20,40\n2026-03-01 10:00,18,40\n2026-03-01 11:00,19,40\n";
  const made = await importClimate(context, { placeId, ...written(context, text), mapping: MAPPING });
  expect(made).toMatchObject({ ok: true, value: { report: { kept: 3, gapCount: 0, usualStepSeconds: 3600 } } });
  expect(readingSpan(context.db, placeId)).toEqual({ firstSeconds: at("2026-03-01T10:00:00"), lastSeconds: at("2026-03-01T12:00:00") });
});

test("what the place has already stays as it is: the same file twice adds nothing, a longer one adds the rest", async () => {
  const { context, placeId } = room();
  const first = "time,t,rh\n2026-03-01 10:00,18,40\n2026-03-01 11:00,19,40\n";
  await importClimate(context, { placeId, ...written(context, first), mapping: MAPPING });
  const again = await importClimate(context, { placeId, ...written(context, first), mapping: MAPPING });
  expect(again).toMatchObject({ ok: false, refusals: [{ happened: expect.stringContaining("already") }] });
  const longer = await importClimate(context, {
    placeId,
    ...written(context, "time,t,rh\n2026-03-01 10:00,18,40\n2026-03-01 11:00,25,40\n2026-03-01 12:00,20,40\n"),
    mapping: MAPPING,
  });
  if (!longer.ok) throw new Error("refused");
  expect(longer.value.report.kept).toBe(1);
  expect(longer.value.report.problems.map(({ problem, count }) => [problem, count])).toEqual([
    ["held-same", 1],
    ["held-different", 1],
  ]);
  expect(listClimateImports(context.db, placeId)).toHaveLength(2);
});

test("stopped half-way nothing is kept, and the temporary readings are gone", async () => {
  const { context, placeId } = room();
  const rows = Array.from({ length: 20_000 }, (_, i) => `${new Date((1_700_000_000 + i * 60) * 1000).toISOString().slice(0, 19)},18,40`);
  const stopping = new AbortController();
  const seen: number[] = [];
  const made = await importClimate(context, {
    placeId,
    ...written(context, `time,t,rh\n${rows.join("\n")}`),
    mapping: MAPPING,
    stop: stopping.signal,
    onProgress: ({ rows: read }) => {
      seen.push(read);
      stopping.abort();
    },
  });
  expect(made).toMatchObject({ ok: false, refusals: [{ happened: expect.stringContaining("None of its readings") }] });
  expect(seen[0]).toBeLessThan(20_000);
  expect(readingSpan(context.db, placeId)).toBeNull();
  expect(listClimateImports(context.db, placeId)).toEqual([]);
  expect(context.db.$client.prepare("select count(*) from temp.sqlite_master where name like 'staged%'").pluck().get()).toBe(0);
});

test("a file in which no row can be read is refused with an example, and so is a place that does not exist", async () => {
  const { context, placeId } = room();
  const wrong = await importClimate(context, { placeId, ...written(context, ROWS), mapping: { ...MAPPING, dateOrder: "day-month-year" } });
  expect(wrong).toMatchObject({ ok: false, refusals: [{ happened: expect.stringContaining("Row 2 reads: 2026-03-01 10:00") }] });
  const nowhere = await importClimate(context, { placeId: 99, ...written(context, ROWS), mapping: MAPPING });
  expect(nowhere).toMatchObject({ ok: false, refusals: [{ about: "place" }] });
});

test("an import can be taken back without touching the others", async () => {
  const { context, placeId } = room();
  const made = await importClimate(context, { placeId, ...written(context, ROWS), mapping: MAPPING });
  if (!made.ok) throw new Error("refused");
  const reading = { atSeconds: at("2026-03-05T10:00:00"), temperatureCentiC: 1800, humidityCentiPercent: null };
  expect(typeClimate(context, { placeId, reading })).toMatchObject({ ok: true });
  expect(typeClimate(context, { placeId, reading })).toMatchObject({ ok: false, refusals: [{ about: "at" }] });
  expect(takeBackClimate(context, { placeId: placeId + 1, importId: made.value.importId }).ok).toBe(false);
  expect(takeBackClimate(context, { placeId, importId: made.value.importId })).toMatchObject({ ok: true, value: { readings: 5 } });
  expect(readingSpan(context.db, placeId)).toEqual({ firstSeconds: reading.atSeconds, lastSeconds: reading.atSeconds });
});
