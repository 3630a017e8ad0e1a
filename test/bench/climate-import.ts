/**
 * How long a million readings take to come in and to be judged, and how much memory that needs.
 * Run: npx tsx test/bench/climate-import.ts [rows]
 */

import { once } from "node:events";
import { createWriteStream, mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { placeClimate } from "#domain/storage/climate/place-climate.ts";
import { climateSeries } from "#drizzle/queries/climate.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import { importClimate } from "#server/actions/import-climate.ts";
import { openCollection } from "#server/open-collection.ts";
import { seeded } from "../../demo-collection/random.ts";

const ROWS = Number(process.argv[2] ?? 1_000_000);
const STEP_SECONDS = 600;
const directory = mkdtempSync(path.join(tmpdir(), "solander-climate-"));
const file = path.join(directory, "logger.csv");
await writeRows();
const context = openCollection(path.join(directory, "collection"), { name: "Bench" });
try {
  const placeId = insertPlace(context.db, { parentId: null, kind: "room", name: "Store" });
  const mb = (bytes: number) => (bytes / 2 ** 20).toFixed(0);
  globalThis.gc?.();
  const before = process.memoryUsage().rss;
  let most = before;
  const watch = setInterval(() => {
    most = Math.max(most, process.memoryUsage().rss);
  }, 20);
  const began = performance.now();
  const outcome = await importClimate(context, {
    placeId,
    file,
    fileName: "logger.csv",
    mapping: {
      delimiter: "semicolon",
      firstRow: 2,
      timeColumn: 1,
      clockColumn: null,
      dateOrder: "day-month-year",
      timeZone: process.argv[3] ?? "Europe/Lisbon",
      temperatureColumn: 2,
      temperatureUnit: "celsius",
      humidityColumn: 3,
      decimalSign: "comma",
    },
  });
  const seconds = (performance.now() - began) / 1000;
  clearInterval(watch);
  most = Math.max(most, process.memoryUsage().rss);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  const { report } = outcome.value;
  console.log(`file ${mb(statSync(file).size)} MB, ${ROWS} rows: imported ${report.kept} in ${seconds.toFixed(1)} s`);
  console.log(`memory before ${mb(before)} MB, at most ${mb(most)} MB (+${mb(most - before)} MB)`);
  console.log(report.problems.map(({ problem, count }) => `${problem}: ${count}`).join(", ") || "no problems");
  const again = performance.now();
  const series = climateSeries(context.db, placeId, report.firstSeconds, report.lastSeconds + 1);
  const read = performance.now();
  placeClimate(series, ["gelatin-silver", "chromogenic", "inkjet"]);
  console.log(
    `all ${series.atSeconds.length} read in ${(read - again).toFixed(0)} ms, judged in ${(performance.now() - read).toFixed(0)} ms`,
  );
  context.db.$client.pragma("wal_checkpoint(TRUNCATE)");
  console.log(`database ${mb(statSync(context.folder.database).size)} MB`);
} finally {
  context.close();
  rmSync(directory, { recursive: true, force: true });
}

async function writeRows(): Promise<void> {
  const random = seeded(7);
  const out = createWriteStream(file);
  out.write("time;temperature;humidity\n");
  const start = Date.UTC(2006, 0, 1) / 1000;
  for (let i = 0; i < ROWS; i++) {
    const at = new Date((start + i * STEP_SECONDS) * 1000).toISOString();
    const day = `${at.slice(8, 10)}.${at.slice(5, 7)}.${at.slice(0, 4)} ${at.slice(11, 19)}`;
    const warmth = 18 + 5 * Math.sin((i * STEP_SECONDS) / 5_022_000) + random();
    const line = `${day};${warmth.toFixed(2).replace(".", ",")};${(45 + 10 * random()).toFixed(1).replace(".", ",")}\n`;
    if (!out.write(line)) await once(out, "drain");
  }
  out.end();
  await once(out, "finish");
}
