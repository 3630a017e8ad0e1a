import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import { matchAmong, recognisable } from "#server/plain-files/match-plain-files.ts";
import { readPlainFile } from "#server/plain-files/read-plain-file.ts";

const SAYS_NOTHING = { formatId: null, sheetMm: null, method: null };

/** Truth: The National Archives, UK, which captures belong to which form; see the fixture's README. */
const FOLDER = fileURLToPath(new URL("../fixtures/prints-on-forms/", import.meta.url));

test("the board's own edge on the black ground is kept where what lies on it is askew", async () => {
  for (const [name, top] of [
    ["form084_148.jpg", [20, 15]],
    ["form084_149.jpg", [21, 14]],
  ] as const) {
    const read = await readPlainFile(`${FOLDER}${name}`, SAYS_NOTHING);
    if (!read.ok) throw new Error(name);
    const [outline] = findOutlines(read.value.picture, read.value.context);
    // y of the board's upper corners, read off the pictures by eye, px
    expect(Math.abs((outline?.sheet.topLeft.y ?? 0) - top[0])).toBeLessThan(2);
    expect(Math.abs((outline?.sheet.topRight.y ?? 0) - top[1])).toBeLessThan(2);
  }
});

test("real captures of one form are known as the same, and the same printed form with other writing never is", async () => {
  const names = readdirSync(FOLDER).filter((name) => name.endsWith(".jpg"));
  const files = await Promise.all(
    names.map(async (name) => {
      const read = await recognisable(`${FOLDER}${name}`, SAYS_NOTHING);
      if (!read.ok) throw new Error(name);
      return { ...read.value, file: name };
    }),
  );
  expect(files).toHaveLength(6);
  for (const asked of files) {
    const { matches } = await matchAmong(
      asked,
      files.filter((file) => file !== asked),
    );
    const form = asked.file.split("_")[0];
    const twin = names.find((name) => name.startsWith(`${form}_`) && name !== asked.file);
    expect(matches.filter(({ verdict }) => verdict === "same").map(({ file }) => file)).toEqual([twin]);
  }
});
