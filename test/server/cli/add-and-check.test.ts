import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import sharp from "sharp";
import { expect, test } from "vitest";
import { listTray } from "#drizzle/queries/captures.ts";
import { claimWork, failWork } from "#drizzle/queries/work.ts";
import { openCollection } from "#server/open-collection.ts";
import { keptPrint } from "../../fixtures/captured-print.ts";
import { emptyFolder, solander } from "./command-line.ts";

/** A folder of files and a collection beside it that holds print 1978.004. */
async function filesAndCollection(names: readonly string[]): Promise<{ files: string; collection: string }> {
  const files = path.join(emptyFolder(), "scans");
  mkdirSync(files);
  for (const [index, name] of names.entries()) {
    const grey = 40 + index * 20;
    await sharp({ create: { width: 64 + index, height: 48, channels: 3, background: { r: grey, g: grey, b: grey } } }).toFile(
      path.join(files, name),
    );
  }
  const collection = emptyFolder();
  const context = openCollection(collection);
  keptPrint(context.db, "1978.004");
  context.close();
  return { files, collection };
}

const inTray = (collection: string): string[] => {
  const context = openCollection(collection);
  const names = listTray(context.db).map((capture) => capture.original.originalName);
  context.close();
  return names;
};

test("a folder is taken in: the file named after a print finds it, the other waits in the tray", async () => {
  const { files, collection } = await filesAndCollection(["1978.004_front.png", "shoebox.jpg"]);
  const { code, answer } = await solander(["add", files, "--collection", collection, "--json"]);
  expect(code).toBe(0);
  expect(JSON.parse(answer)).toMatchObject({
    takenIn: [
      { file: path.join(files, "1978.004_front.png"), objectNumber: "1978.004", alreadyHeld: false },
      { file: path.join(files, "shoebox.jpg"), objectNumber: null, alreadyHeld: false },
    ],
    refused: [],
    left: 0,
  });
  expect(inTray(collection)).toEqual(["shoebox.jpg"]);
});

test("one bad file is refused by name and does not stop the others; the command ends with 1", async () => {
  const { files, collection } = await filesAndCollection(["a.png", "c.png"]);
  writeFileSync(path.join(files, "b.png"), "this is no picture");
  const { code, answer } = await solander(["add", files, path.join(files, "none.tif"), "--collection", collection]);
  expect(code).toBe(1);
  expect(answer).toContain(`${path.join(files, "b.png")}: `);
  expect(answer).toContain(`${path.join(files, "none.tif")}: There is no such file or folder.`);
  expect(answer).toContain("2 captures taken in, 2 of them in the tray.");
  expect(answer).toContain("2 files were refused.");
});

test("the same command again takes nothing in twice", async () => {
  const { files, collection } = await filesAndCollection(["a.png", "b.png"]);
  await solander(["add", files, "--collection", collection]);
  const { code, answer } = await solander(["add", files, "--collection", collection]);
  expect(code).toBe(0);
  expect(answer).toContain("0 captures taken in.");
  expect(answer).toContain("2 files were held already");
  expect(inTray(collection)).toHaveLength(2);
});

test("a print that does not exist ends with 2 before anything is taken in", async () => {
  const { files, collection } = await filesAndCollection(["a.png"]);
  expect(await solander(["add", files, "--print", "1999.1", "--collection", collection])).toMatchObject({ code: 2, answer: "" });
  expect(inTray(collection)).toEqual([]);
});

test("stopped, it says how many files were not looked at, and the next run takes them in", async () => {
  const { files, collection } = await filesAndCollection(["a.png", "b.png", "c.png"]);
  const stopped = await solander(["add", files, "--collection", collection], { stop: AbortSignal.abort() });
  expect(stopped.code).toBe(1);
  expect(stopped.answer).toContain("Stopped; 3 files were not looked at.");
  expect(await solander(["add", files, "--collection", collection])).toMatchObject({ code: 0 });
  expect(inTray(collection)).toHaveLength(3);
});

/** Where the only original of a collection lies. */
function onlyOriginal(collection: string): string {
  const captures = path.join(collection, "captures");
  const [found, ...more] = readdirSync(captures, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  if (!found || more.length > 0) throw new Error("need exactly one original for this test to mean anything");
  return path.join(found.parentPath, found.name);
}

test("check finds a whole collection whole, a changed byte, and a missing file", async () => {
  const { files, collection } = await filesAndCollection(["a.png"]);
  await solander(["add", files, "--collection", collection]);
  expect(await solander(["check", "--collection", collection])).toMatchObject({
    code: 0,
    answer: "1 original checked; all are as they were taken in.\n",
  });

  const original = onlyOriginal(collection);
  const bytes = readFileSync(original);
  const changed = Buffer.from(bytes);
  changed[changed.length - 1] = (changed.at(-1) ?? 0) ^ 1;
  rmSync(original);
  writeFileSync(original, changed);
  const found = await solander(["check", "--collection", collection]);
  expect(found.code).toBe(1);
  expect(found.answer).toContain("a.png: The file is not what was taken in.");

  rmSync(original);
  const missing = await solander(["check", "--collection", collection, "--json"]);
  expect(missing.code).toBe(1);
  expect(JSON.parse(missing.answer)).toMatchObject({ checked: 1, problems: [{ about: "a.png", happened: "The file is gone." }] });
});

test("measure tells of what failed before and leaves it; with --failed it tries again", async () => {
  const { files, collection } = await filesAndCollection(["a.png"]);
  await solander(["add", files, "--collection", collection]);
  const context = openCollection(collection);
  const work = claimWork(context.db, "2026-01-01T00:00:00.000Z", "2026-01-01T00:01:00.000Z");
  failWork(context.db, work?.id ?? 0, "The machine was short of memory.", "2026-01-01T00:00:01.000Z");
  context.close();
  const first = await solander(["measure", "--collection", collection]);
  expect(first.answer).toContain("1 piece could not be measured before; --failed tries again.");
  const left = await solander(["measure", "--collection", collection, "--json"]);
  expect(JSON.parse(left.answer)).toMatchObject({ done: 0, failedBefore: 1 });
  const again = await solander(["measure", "--failed", "--collection", collection, "--json"]);
  expect(JSON.parse(again.answer)).toMatchObject({ done: 1, failed: [], left: 0, failedBefore: 0 });
});
