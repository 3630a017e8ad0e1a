import { randomUUID } from "node:crypto";
import { appendFileSync, mkdirSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { Readable } from "node:stream";
import sharp from "sharp";
import { expect, test } from "vitest";
import { findOriginal } from "#drizzle/queries/captures.ts";
import { fixityOfOriginal } from "#drizzle/queries/fixity.ts";
import { checkFixity } from "#server/actions/check-fixity.ts";
import { takeInCapture } from "#server/actions/take-in-capture.ts";
import { originalPath } from "#server/collection-folder.ts";
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
    const sha256 = findOriginal(context.db, taken.value.originalId)?.sha256 ?? "";
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
