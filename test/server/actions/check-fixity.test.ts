import { randomUUID } from "node:crypto";
import { appendFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { Readable } from "node:stream";
import sharp from "sharp";
import { expect, test } from "vitest";
import { listCapturesOfOriginal, listOriginals } from "#drizzle/queries/captures.ts";
import { listChoicesOfPrint } from "#drizzle/queries/choices.ts";
import { fixityOfOriginal, latestFixityRun } from "#drizzle/queries/fixity.ts";
import { assignCapture } from "#server/actions/assign-capture.ts";
import { checkFixity } from "#server/actions/check-fixity.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { takeInCapture } from "#server/actions/take-in-capture.ts";
import { originalPath } from "#server/collection-folder.ts";
import { GOOD_ENOUGH, keptPrint, reread } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

async function three() {
  const context = emptyCollection();
  const originals: { id: number; file: string }[] = [];
  for (const [index, originalName] of ["sound.png", "spoilt.png", "lost.png"].entries()) {
    const bytes = await sharp({ create: { width: 8, height: 8, channels: 3, background: { r: index, g: 0, b: 0 } } })
      .png()
      .toBuffer();
    const taken = await takeInCapture(context, { source: Readable.from([bytes]), originalName });
    if (!taken.ok) throw new Error("refused");
    const sha256 = listOriginals(context.db).find(({ id }) => id === taken.value.originalId)?.sha256 ?? "";
    originals.push({ id: taken.value.originalId, file: originalPath(context.folder, sha256) });
  }
  return { context, originals };
}

test("originals as they came are found unchanged", async () => {
  const { context } = await three();
  expect(await checkFixity(context)).toEqual({ checked: 3, problems: [], left: 0 });
});

test("a changed and a lost original are named with what to do, and every look is kept", async () => {
  const { context, originals } = await three();
  await checkFixity(context);
  appendFileSync(originals[1]?.file ?? "", "x");
  rmSync(originals[2]?.file ?? "");
  const report = await checkFixity(context);
  expect(report.problems).toMatchObject([
    { about: "spoilt.png", happened: expect.stringContaining("not what was taken in"), remedy: expect.stringContaining("backup") },
    { about: "lost.png", happened: expect.stringContaining("gone") },
  ]);
  expect(originals.map(({ id }) => fixityOfOriginal(context.db, id)[0]?.outcome)).toEqual(["unchanged", "changed", "missing"]);
  expect(fixityOfOriginal(context.db, originals[1]?.id ?? 0).map(({ outcome }) => outcome)).toEqual(["changed", "unchanged"]);
});

test("files that no record knows are told of and left alone", async () => {
  const { context } = await three();
  const stranger = path.join(context.folder.captures, "ab", "ab".repeat(32));
  mkdirSync(path.dirname(stranger), { recursive: true });
  writeFileSync(stranger, "x");
  const half = `4999999-${randomUUID()}`;
  writeFileSync(path.join(context.folder.incoming, half), "x");
  writeFileSync(path.join(context.folder.captures, "stray.txt"), "x");
  writeFileSync(path.join(context.folder.incoming, "grandmother.tif"), "x");
  const { problems } = await checkFixity(context);
  expect(problems.map(({ about, happened }) => [about, happened.split(" ")[0]])).toEqual([
    [`captures/ab/${"ab".repeat(32)}`, "No"],
    [`captures/incoming/${half}`, "This"],
    ["captures/incoming/grandmother.tif", "Somebody"],
    ["captures/stray.txt", "Somebody"],
  ]);
});

test("a check that was stopped keeps what it looked at, and goes on with the rest", async () => {
  const { context } = await three();
  const stop = new AbortController();
  const stopped = await checkFixity(context, { stop: stop.signal, onProgress: (done) => done === 2 && stop.abort() });
  expect(stopped).toEqual({ checked: 2, problems: [], left: 1 });
  const run = latestFixityRun(context.db);
  expect(run).toMatchObject({ checked: 2, endedAt: null });
  expect(await checkFixity(context, { runId: run?.id ?? 0 })).toEqual({ checked: 1, problems: [], left: 0 });
  expect(latestFixityRun(context.db)).toMatchObject({ id: run?.id, checked: 3, endedAt: expect.any(String) });
});

test("a file found damaged no longer counts for the choice, and counts again once it is sound", async () => {
  const { context, originals } = await three();
  const printId = keptPrint(context.db, "1975.001.01");
  const captureId = listCapturesOfOriginal(context.db, originals[1]?.id ?? 0)[0]?.id ?? 0;
  assignCapture(context, { captureId, printId, side: "front" });
  reread(context.db, captureId, GOOD_ENOUGH);
  chooseMasters(context);
  const screen = () => listChoicesOfPrint(context.db, printId).find(({ purpose }) => purpose.key === "screen");
  expect(screen()?.captureId).toBe(captureId);
  const file = originals[1]?.file ?? "";
  const sound = readFileSync(file);
  appendFileSync(file, "x");
  await checkFixity(context);
  expect(screen()?.captureId).toBeNull();
  expect(screen()?.sentence).toContain("its file is damaged: it is not what was taken in");
  writeFileSync(file, sound);
  await checkFixity(context);
  expect(screen()?.captureId).toBe(captureId);
});
