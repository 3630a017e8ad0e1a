import { mkdirSync, symlinkSync, writeFileSync } from "node:fs";
import files from "node:fs/promises";
import { syncBuiltinESMExports } from "node:module";
import path from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { findFiles } from "#server/cli/find-files.ts";
import { emptyFolder } from "./command-line.ts";

const real = { ...files };

/** Rights do not bind a test that runs as the system's own keeper: a folder called “locked” refuses instead. */
const readdir = async (folder: string, options: { withFileTypes: true; recursive?: boolean }) => {
  const isLocked = (name: string) => path.basename(name) === "locked";
  const entries = await real.readdir(folder, options);
  if (isLocked(folder) || (options.recursive && entries.some(({ name }) => isLocked(name))))
    throw Object.assign(new Error("not permitted"), { code: "EACCES" });
  return entries;
};

beforeAll(() => {
  Object.assign(files, { readdir });
  syncBuiltinESMExports();
});

afterAll(() => {
  Object.assign(files, real);
  syncBuiltinESMExports();
});

function plant(folder: string, names: readonly string[]): void {
  for (const name of names) {
    mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
    writeFileSync(path.join(folder, name), "x");
  }
}

test("folders are looked through to the bottom, with numbers in names counted", async () => {
  const folder = emptyFolder();
  plant(folder, ["scan 10.tif", "scan 9.tif", "box/a.jpg", "box/deep/b.jpg"]);
  const { files, refusals } = await findFiles([folder]);
  expect(files.map((file) => path.relative(folder, file.path))).toEqual(["box/a.jpg", "box/deep/b.jpg", "scan 9.tif", "scan 10.tif"]);
  expect(files.map((file) => file.name)).toEqual(["a.jpg", "b.jpg", "scan 9.tif", "scan 10.tif"]);
  expect(refusals).toEqual([]);
});

test("what systems leave in folders is left out, but a file named outright is taken", async () => {
  const folder = emptyFolder();
  plant(folder, [".DS_Store", "Thumbs.db", ".hidden/a.jpg", "a.jpg"]);
  expect((await findFiles([folder])).files.map((file) => file.name)).toEqual(["a.jpg"]);
  expect((await findFiles([path.join(folder, ".DS_Store")])).files).toHaveLength(1);
});

test("links inside a folder are told and lead in no circle; one named by itself is followed", async () => {
  const folder = emptyFolder();
  plant(folder, ["a.jpg"]);
  symlinkSync(folder, path.join(folder, "again"));
  symlinkSync(path.join(folder, "a.jpg"), path.join(folder, "b.jpg"));
  const { files, refusals } = await findFiles([folder]);
  expect(files.map((file) => file.name)).toEqual(["a.jpg"]);
  expect(refusals.map(({ about }) => path.basename(about ?? "")).sort()).toEqual(["again", "b.jpg"]);
  expect((await findFiles([path.join(folder, "b.jpg")])).files.map((file) => file.name)).toEqual(["b.jpg"]);
});

test("a folder inside that may not be read is refused by its name, and the rest is found", async () => {
  const folder = emptyFolder();
  plant(folder, ["a.jpg", "locked/b.jpg", "open/c.jpg"]);
  const { files, refusals } = await findFiles([folder]);
  expect(files.map((file) => file.name)).toEqual(["a.jpg", "c.jpg"]);
  expect(refusals).toMatchObject([{ about: path.join(folder, "locked"), happened: "It may not be read." }]);
});

test("a name that does not exist is refused, and the others are found", async () => {
  const folder = emptyFolder();
  plant(folder, ["a.jpg"]);
  const { files, refusals } = await findFiles([path.join(folder, "none.jpg"), folder]);
  expect(files).toHaveLength(1);
  expect(refusals).toEqual([
    { about: path.join(folder, "none.jpg"), happened: "There is no such file or folder.", remedy: expect.any(String) },
  ]);
});
