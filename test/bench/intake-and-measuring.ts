import { createReadStream, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { Hono } from "hono";
import { readPrintFilter } from "#domain/print/print-filter.ts";
import { printInput } from "#domain/print/schema.ts";
import { findMeasureSet } from "#drizzle/queries/measures.ts";
import { insertPrint, listPrints } from "#drizzle/queries/prints.ts";
import { enqueueMeasure } from "#drizzle/queries/work.ts";
import { createPrint } from "#server/actions/create-print.ts";
import { takeInCapture } from "#server/actions/take-in-capture.ts";
import { createApp } from "#server/app.ts";
import type { Context } from "#server/context.ts";
import { sharp } from "#server/images/policy.ts";
import { openCollection } from "#server/open-collection.ts";
import { startWork } from "#server/work/queue.ts";
import { DEMO_CAPTURES, readDemoManifest } from "../../demo-collection/read-manifest.ts";
import { printValues } from "../fixtures/prints.ts";

/**
 * Times per megapixel of taking in and measuring, as a ratio to the image library decoding the same file to raw
 * pixels, in the same run; then a page and its query against an empty route and a bare query. The quickest of some rounds is told,
 * since other work on the machine only ever adds.
 */
const ROUNDS = 4;
const FILES_OF_A_KIND = 2;
const PRINTS = 5000;

console.log(`The quickest of ${ROUNDS} rounds; decoding and measuring with one thread each.\n`);
await inFolder(timeCaptures);
await inFolder(timePages);

async function timeCaptures(folder: string): Promise<void> {
  console.log("| file | MP | decode ms/MP | intake ms/MP | ratio | measure ms/MP | ratio |\n| --- | --- | --- | --- | --- | --- | --- |");
  for (const [index, { file, objectNumber, megapixels }] of (await largestOfEachKind()).entries()) {
    const source = path.join(DEMO_CAPTURES, file);
    const decodeTimes: number[] = [];
    const intakeTimes: number[] = [];
    let context = collectionWith(path.join(folder, `${index}-warm`), objectNumber);
    let captureId = 0;
    // in turns, so that what else the machine does weighs on both alike; the first turn warms up
    for (let round = 0; round <= ROUNDS; round++) {
      decodeTimes[round] = await timeOf(() => sharp(source).raw().toBuffer());
      const made = collectionWith(path.join(folder, `${index}-${round}`), objectNumber);
      intakeTimes[round] = await timeOf(async () => {
        const taken = await takeInCapture(made, { source: createReadStream(source), originalName: file });
        if (!taken.ok) throw new Error(taken.refusals[0]?.happened);
        captureId = taken.value.captureId;
      });
      context = made;
    }
    const decodeMs = quickest(decodeTimes.slice(1));
    const intakeMs = quickest(intakeTimes.slice(1));
    const measureMs = await timeMeasuring(context, captureId);
    const perMegapixel = (ms: number) => (ms / megapixels).toFixed(1);
    const ratio = (ms: number) => (ms / decodeMs).toFixed(1);
    console.log(
      `| ${file} | ${megapixels.toFixed(1)} | ${perMegapixel(decodeMs)} | ${perMegapixel(intakeMs)} | ${ratio(intakeMs)} | ${perMegapixel(measureMs)} | ${ratio(measureMs)} |`,
    );
  }
}

/** As the worker thread tells it: decoding, small pictures, every measure; without the start of the thread. */
async function timeMeasuring(context: Context, captureId: number): Promise<number> {
  const work = startWork(context, { threads: 1 });
  const times: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    enqueueMeasure(context.db, captureId);
    await work.idle();
    times.push(findMeasureSet(context.db, captureId, "alone")?.durationMs ?? Number.NaN);
  }
  await work.stop();
  return quickest(times);
}

async function largestOfEachKind(): Promise<{ file: string; objectNumber: string; megapixels: number }[]> {
  const { captures } = readDemoManifest();
  const sized = await Promise.all(
    captures
      .filter(({ namesItsPrint, sameBytesAs }) => namesItsPrint && sameBytesAs === null)
      .map(async ({ file, prints }) => {
        const { width, height } = await sharp(path.join(DEMO_CAPTURES, file)).metadata();
        return { file, objectNumber: prints[0] as string, megapixels: (width * height) / 1e6 };
      }),
  );
  sized.sort((a, b) => b.megapixels - a.megapixels);
  return [".jpg", ".png", ".tif"].flatMap((end) => sized.filter(({ file }) => file.endsWith(end)).slice(0, FILES_OF_A_KIND));
}

function collectionWith(folder: string, objectNumber: string): Context {
  const context = openCollection(folder);
  const { prints } = readDemoManifest();
  const print = prints.find((each) => each.objectNumber === objectNumber);
  const made = createPrint(context, printInput.parse({ ...print?.fields, objectNumber }));
  if (!made.ok) throw new Error(made.refusals[0]?.happened);
  return context;
}

async function timePages(folder: string): Promise<void> {
  const context = openCollection(folder);
  context.db.transaction((tx) => {
    for (let number = 1; number <= PRINTS; number++)
      insertPrint(tx, printValues(`1978.${number}`, { title: `Print ${number}` }), context.now());
  });
  const { filter } = readPrintFilter({});
  const bareRows = await quickestOf(() => context.db.$client.prepare("select * from prints order by object_number_sort limit 50").all());
  const listedRows = await quickestOf(() => listPrints(context.db, filter));
  const empty = new Hono().get("/", (c) => c.text(""));
  const app = createApp(context);
  const emptyRoute = await quickestOf(async () => (await empty.request("/")).text());
  const page = await quickestOf(async () => (await app.request("http://127.0.0.1/prints", { headers: { host: "127.0.0.1" } })).text());
  console.log(`\nOf ${PRINTS.toLocaleString("en")} prints, 50 a page:`);
  console.log(`bare query ${bareRows.toFixed(2)} ms, listing query ${listedRows.toFixed(2)} ms (${(listedRows / bareRows).toFixed(1)} ×)`);
  console.log(`empty route ${emptyRoute.toFixed(2)} ms, page of prints ${page.toFixed(2)} ms (${(page / emptyRoute).toFixed(0)} ×)`);
}

/** The first run warms up and is not counted. */
async function quickestOf(run: () => unknown): Promise<number> {
  const times: number[] = [];
  for (let round = 0; round <= 5 * ROUNDS; round++) times.push(await timeOf(run));
  return quickest(times.slice(1));
}

async function timeOf(run: () => unknown): Promise<number> {
  const start = performance.now();
  await run();
  return performance.now() - start;
}

function quickest(times: readonly number[]): number {
  return Math.min(...times);
}

async function inFolder(run: (folder: string) => Promise<void>): Promise<void> {
  const folder = mkdtempSync(path.join(tmpdir(), "solander-bench-"));
  try {
    await run(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
