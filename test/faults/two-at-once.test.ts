import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import sharp from "sharp";
import { expect, onTestFinished, test } from "vitest";
import { listOriginals } from "#drizzle/queries/captures.ts";
import { workProgress } from "#drizzle/queries/work-progress.ts";
import { openCollection } from "#server/open-collection.ts";
import { programOf } from "#server/work/start-thread.ts";

const CHILD = new URL("./intake-child.ts", import.meta.url);
const FILES = 5;

test("two programs that take the same files into one collection at once store and measure each once", { timeout: 120_000 }, async () => {
  const root = mkdtempSync(path.join(tmpdir(), "solander-two-"));
  onTestFinished(() => rmSync(root, { recursive: true, force: true }));
  const [files, collection] = [path.join(root, "files"), path.join(root, "collection")];
  mkdirSync(files);
  for (let index = 0; index < FILES; index++)
    await sharp({ create: { width: 120, height: 90, channels: 3, background: { r: 200, g: 40 * index, b: 30 } } })
      .png()
      .toFile(path.join(files, `${index}.png`));
  openCollection(collection).close();
  const program = path.join(root, "child.cjs");
  writeFileSync(program, await programOf(CHILD));
  const both = [1, 2].map(() => spawn(process.execPath, [program, collection, files], { stdio: ["ignore", "ignore", "inherit"] }));
  const ends = await Promise.all(both.map((child) => once(child, "exit")));
  expect(ends.map(([code]) => code)).toEqual([0, 0]);
  const context = openCollection(collection);
  onTestFinished(() => context.close());
  expect(listOriginals(context.db)).toHaveLength(FILES);
  expect(workProgress(context.db)).toMatchObject({ waiting: 0, running: 0, failed: 0, done: FILES });
  expect(readdirSync(context.folder.incoming)).toEqual([]);
});
