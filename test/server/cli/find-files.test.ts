import { mkdirSync, symlinkSync, writeFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { findFiles } from "#server/cli/find-files.ts";
import { emptyFolder } from "./command-line.ts";

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

test("a link to the folder itself does not lead in a circle", async () => {
  const folder = emptyFolder();
  plant(folder, ["a.jpg"]);
  symlinkSync(folder, path.join(folder, "again"));
  expect((await findFiles([folder])).files.map((file) => file.name)).toEqual(["a.jpg"]);
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
