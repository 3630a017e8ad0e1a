import { existsSync, rmSync } from "node:fs";
import { Readable } from "node:stream";
import { expect, onTestFinished, test, vi } from "vitest";
import { isPresent } from "#domain/measure/reading.ts";
import { findCapture, listOriginals } from "#drizzle/queries/captures.ts";
import { findMeasureSet, readingsOfCaptures } from "#drizzle/queries/measures.ts";
import { claimWork, enqueueMeasure, remeasurePrint } from "#drizzle/queries/work.ts";
import { listFailedWork, measuringOfCaptures, workProgress } from "#drizzle/queries/work-progress.ts";
import { takeInCapture } from "#server/actions/take-in-capture.ts";
import { derivedPath, originalPath } from "#server/collection-folder.ts";
import type { Context } from "#server/context.ts";
import { startWork, type WorkOptions } from "#server/work/queue.ts";
import { Thread } from "#server/work/thread.ts";
import { keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { emptyCollection } from "../../fixtures/collection.ts";
import { codesAsImage } from "../../fixtures/image-files.ts";

const SIZES = { sheetWidthMm: SMALL.widthMm, sheetHeightMm: SMALL.heightMm, imageWidthMm: 34, imageHeightMm: 38 };

function working(context: Context, options: WorkOptions = {}) {
  const work = startWork(context, options);
  onTestFinished(() => work.stop());
  return work;
}

const odd = (mostMs?: number) => () => new Thread(new URL("./odd-worker.ts", import.meta.url), mostMs);

async function takeInSheet(context: Context, name: string, seed: number) {
  const { picture } = captureSheet({ seed, turnDeg: 2 });
  const bytes = await codesAsImage(picture.codes, picture.widthPx, picture.heightPx, 3).png().toBuffer();
  const taken = await takeInCapture(context, { source: Readable.from([bytes]), originalName: name });
  if (!taken.ok) throw new Error(JSON.stringify(taken.refusals));
  return taken.value.captureId;
}

test("captures taken in are measured in threads and compared with each other, and their print is told of", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "A.1", SIZES);
  const told: number[] = [];
  const work = working(context, { threads: 2, onMeasured: (id) => told.push(id) });
  const one = await takeInSheet(context, "A.1 first.png", 1);
  const two = await takeInSheet(context, "A.1 second.png", 2);
  await work.idle();
  expect(workProgress(context.db)).toMatchObject({ waiting: 0, running: 0, failed: 0, done: 3 });
  const readings = readingsOfCaptures(context.db, [one, two]);
  for (const id of [one, two]) {
    const of = (name: string) => readings.get(id)?.find((reading) => reading.name === name);
    // drawn with 200 ppi and a lean of 2 degrees
    expect(of("samplingPpi")).toMatchObject({ value: expect.closeTo(200, -0.5), family: "alone" });
    expect(of("skewDegrees")).toMatchObject({ value: expect.closeTo(2, 1) });
    expect(findMeasureSet(context.db, id, "together")).not.toBe(null);
    expect(existsSync(derivedPath(context.folder, id, "thumbnail.jpg"))).toBe(true);
    expect(findMeasureSet(context.db, id, "alone")?.basis.outlines).toHaveLength(1);
  }
  expect(told.at(-1)).toBe(printId);
});

test("a capture without a print is measured as far as that goes, and says what is missing", async () => {
  const context = emptyCollection();
  const work = working(context, { threads: 1 });
  const id = await takeInSheet(context, "loose.png", 1);
  await work.idle();
  const readings = readingsOfCaptures(context.db, [id]).get(id) ?? [];
  const sampling = readings.find(({ name }) => name === "samplingPpi");
  expect(sampling && !isPresent(sampling) && sampling.absent).toBeTruthy();
  expect(readings.find(({ name }) => name === "effectiveBitDepth")).toMatchObject({ value: 8 });
});

test("an original that is gone or spoilt fails in words and stops nobody else", async () => {
  const context = emptyCollection();
  const gone = await takeInSheet(context, "gone.png", 1);
  const sound = await takeInSheet(context, "sound.png", 2);
  rmSync(originalPath(context.folder, findCapture(context.db, gone)?.original.sha256 ?? ""));
  await working(context, { threads: 1 }).idle();
  expect(listFailedWork(context.db)).toEqual([
    { captureId: gone, name: "gone.png", error: expect.stringMatching(/not where it was kept.+backup/) },
  ]);
  expect(measuringOfCaptures(context.db, [sound]).get(sound)?.state).toBe("done");
});

test("a file that kills its thread is tried twice, then fails; the others are measured", async () => {
  vi.spyOn(console, "error").mockImplementation(() => {});
  const context = emptyCollection();
  const ids = ["die", "answer nonsense", "refuse", null].map((profileName) => measuredCapture(context.db, null, {}, { profileName }));
  for (const id of ids) enqueueMeasure(context.db, id);
  await working(context, { threads: 2, thread: odd() }).idle();
  const states = measuringOfCaptures(context.db, ids);
  expect(ids.map((id) => states.get(id)?.state)).toEqual(["failed", "failed", "failed", "done"]);
  expect(states.get(ids[0] as number)?.error).toContain("met a fault");
  expect(states.get(ids[2] as number)?.error).toBe("The file is damaged. Add it again.");
  expect(readingsOfCaptures(context.db, ids).get(ids[3] as number)).toMatchObject([{ name: "skewDegrees", value: 1.5 }]);
});

test("a thread that does not come back is ended", async () => {
  vi.spyOn(console, "error").mockImplementation(() => {});
  const context = emptyCollection();
  const id = measuredCapture(context.db, null, {}, { profileName: "hang" });
  enqueueMeasure(context.db, id);
  await working(context, { threads: 1, thread: odd(1500) }).idle();
  expect(measuringOfCaptures(context.db, [id]).get(id)).toMatchObject({
    state: "failed",
    error: expect.stringContaining("longer than 2 seconds"),
  });
});

test("a print that cannot be judged does not stop the work", async () => {
  vi.spyOn(console, "error").mockImplementation(() => {});
  const context = emptyCollection();
  const printId = keptPrint(context.db, "A.1");
  const ids = [1, 2].map(() => measuredCapture(context.db, printId, {}));
  remeasurePrint(context.db, printId);
  const onMeasured = () => {
    throw new Error("no aim");
  };
  await working(context, { threads: 1, thread: odd(), onMeasured }).idle();
  expect([...measuringOfCaptures(context.db, ids).values()].map(({ state }) => state)).toEqual(["done", "done"]);
});

test("a program that slept past its leases goes on with what it runs, and does it once", async () => {
  const context = emptyCollection();
  const id = measuredCapture(context.db, null, {}, { profileName: "slow" });
  enqueueMeasure(context.db, id);
  const work = working(context, { threads: 2, thread: odd() });
  await vi.waitFor(() => expect(workProgress(context.db).running).toBe(1));
  context.db.$client.exec("update work set lease_until = '2026-01-01T00:00:00Z'");
  context.nudgeWork();
  await work.idle();
  expect(context.db.$client.prepare("select state, attempts from work").all()).toEqual([{ state: "done", attempts: 1 }]);
});

test("a print is told of before its work counts as done, also when its capture could not be measured", async () => {
  const context = emptyCollection();
  const prints = ["A.1", "A.2"].map((number) => keptPrint(context.db, number));
  const ids = ["refuse", null].map((profileName, index) => measuredCapture(context.db, prints[index] as number, {}, { profileName }));
  for (const id of ids) enqueueMeasure(context.db, id);
  const told: unknown[] = [];
  const onMeasured = (printId: number) =>
    told.push([printId, measuringOfCaptures(context.db, ids).get(ids[prints.indexOf(printId)] as number)?.state]);
  await working(context, { threads: 1, thread: odd(), onMeasured }).idle();
  expect(told).toEqual([
    [prints[0], "failed"],
    [prints[1], "running"],
  ]);
  expect([...measuringOfCaptures(context.db, ids).values()].map(({ state }) => state)).toEqual(["failed", "done"]);
});

test("stopping lets go of what runs, and another start goes on with it", async () => {
  const context = emptyCollection();
  const id = measuredCapture(context.db, null, {}, { profileName: "hang" });
  enqueueMeasure(context.db, id);
  const first = startWork(context, { threads: 1, thread: odd() });
  await vi.waitFor(() => expect(workProgress(context.db).running).toBe(1));
  await first.stop();
  expect(workProgress(context.db)).toMatchObject({ waiting: 1, running: 0 });
  context.db.$client.exec("update originals set profile_name = null");
  await working(context, { threads: 1, thread: odd() }).idle();
  expect(workProgress(context.db)).toMatchObject({ done: 1 });
});

test("a print's size changed while its capture was measured: it is measured again with the new one", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "A.1");
  const id = measuredCapture(context.db, printId, {}, { profileName: "slow" });
  enqueueMeasure(context.db, id);
  const work = working(context, { threads: 1, thread: odd() });
  await vi.waitFor(() => expect(workProgress(context.db).running).toBe(1));
  context.db.$client.prepare("update prints set sheet_width_mm = 90, sheet_height_mm = 110 where id = ?").run(printId);
  await work.idle();
  expect(findMeasureSet(context.db, id, "alone")?.basis).toMatchObject({ known: { sheetWidthMm: 90 } });
});

test("work left by a process that died is taken up when its lease has run out", async () => {
  const context = emptyCollection();
  const id = measuredCapture(context.db, null, {});
  enqueueMeasure(context.db, id);
  claimWork(context.db, "2026-01-01T00:00:00Z", "2026-01-01T00:00:30Z");
  await working(context, { threads: 1, thread: odd() }).idle();
  expect(measuringOfCaptures(context.db, [id]).get(id)?.state).toBe("done");
  expect(listOriginals(context.db)).toHaveLength(1);
});
