import { createReadStream, readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { listOriginals } from "#drizzle/queries/captures.ts";
import { workProgress } from "#drizzle/queries/work-progress.ts";
import { takeInCapture } from "#server/actions/take-in-capture.ts";
import { originalPath } from "#server/collection-folder.ts";
import { emptyCollection } from "../../fixtures/collection.ts";
import { sample } from "../../fixtures/image-files.ts";

type Truth = {
  file: string;
  type: string;
  widthPx: number;
  heightPx: number;
  bitsPerChannel: number;
  ppi: number | null;
  takenAt: string | null;
};
const truths: Truth[] = JSON.parse(readFileSync(sample("truth.json"), "utf8"));
const KIND: Record<string, string> = { JPEG: "jpeg", TIFF: "tiff", AVIF: "avif", HEIF: "heic", WEBP: "webp" };

test.each(truths)("$file is taken in with the size, bits, resolution and moment that exiftool reads", async (truth) => {
  const context = emptyCollection();
  const taken = await takeInCapture(context, { source: createReadStream(sample(truth.file)), originalName: path.basename(truth.file) });
  if (!taken.ok) throw new Error(JSON.stringify(taken.refusals));
  const original = listOriginals(context.db).find(({ id }) => id === taken.value.originalId);
  expect(original).toMatchObject({
    kind: KIND[truth.type],
    widthPx: truth.widthPx,
    heightPx: truth.heightPx,
    bitsPerChannel: truth.bitsPerChannel,
    claimedPpiX: truth.ppi === null ? null : expect.closeTo(truth.ppi, 3),
  });
  if (truth.takenAt) expect(original?.capturedAt).toBe(truth.takenAt.replace(":", "-").replace(":", "-").replace(" ", "T"));
  expect(readFileSync(originalPath(context.folder, original?.sha256 ?? ""))).toEqual(readFileSync(sample(truth.file)));
});

test("unreadable EXIF is said, and the file is taken in without it", async () => {
  const context = emptyCollection();
  const taken = await takeInCapture(context, { source: createReadStream(sample("odd/invalid-exif.jpg")), originalName: "a.jpg" });
  if (!taken.ok) throw new Error(JSON.stringify(taken.refusals));
  expect(listOriginals(context.db).find(({ id }) => id === taken.value.originalId)?.metadataState).toBe("unreadable");
  expect(taken.value.notes.join()).toContain("could not be read");
});

test("a file of several pages says which one is read", async () => {
  const context = emptyCollection();
  const taken = await takeInCapture(context, { source: createReadStream(sample("good/multipage.tif")), originalName: "a.tif" });
  expect(taken.ok && taken.value.notes.join()).toContain("3 pictures; the first");
});

test("where a picture was taken is never kept", async () => {
  const context = emptyCollection();
  await takeInCapture(context, { source: createReadStream(sample("good/gps.jpg")), originalName: "a.jpg" });
  expect(JSON.stringify(context.db.$client.prepare("select * from originals").all())).not.toMatch(/gps|latitude|longitude/i);
});

test.each(readdirSync(sample("broken")))("broken/%s is refused with name, reason and remedy, and leaves nothing", async (name) => {
  const context = emptyCollection();
  const taken = await takeInCapture(context, { source: createReadStream(sample(`broken/${name}`)), originalName: name });
  if (taken.ok) throw new Error("a broken file was taken in");
  expect(taken.refusals).toEqual([
    { about: name, happened: expect.stringMatching(/damaged|cut off/), remedy: expect.stringContaining("again") },
  ]);
  expect(readdirSync(context.folder.captures, { recursive: true })).toEqual(["incoming"]);
  expect(workProgress(context.db).waiting).toBe(0);
});
