import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { measureInOrder } from "#server/plain-files/measure-in-order.ts";
import { measurePlainFile } from "#server/plain-files/measure-plain-files.ts";
import { codesAsImage } from "../../fixtures/image-files.ts";

const SAID = { formatId: null, sheetMm: null, method: null };
let folder = "";
let files: string[] = [];

beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), "solander-order-"));
  files = ["grey.png", "words.txt", "dark.png", "letters.txt"].map((name) => path.join(folder, name));
  for (const [index, file] of files.entries()) {
    const codes = Uint8Array.from({ length: 60 * 60 * 3 }, (_, at) => 40 + 60 * index + (at % 7));
    writeFileSync(file, file.endsWith("txt") ? "no picture" : await codesAsImage(codes, 60, 60, 3).png().toBuffer());
  }
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const outcomesOf = async (stop: AbortSignal) => {
  const outcomes = [];
  for await (const outcome of measureInOrder(files, SAID, stop, 2)) outcomes.push(outcome);
  return outcomes;
};

test("files measured by two threads are answered in the order asked, as one thread would, and a refused one stops nobody", async () => {
  const outcomes = await outcomesOf(new AbortController().signal);
  expect(outcomes.map((outcome) => (outcome.ok ? outcome.value.file : outcome.refusals[0]?.about))).toEqual(files);
  expect(outcomes.map(({ ok }) => ok)).toEqual([true, false, true, false]);
  expect(outcomes[2]).toEqual(await measurePlainFile(files[2] as string, SAID));
});

test("after a stop no file is begun", async () => {
  const stop = new AbortController();
  stop.abort();
  expect(await outcomesOf(stop.signal)).toEqual([]);
});
