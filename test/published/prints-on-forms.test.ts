import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { matchAmong, recognisable } from "#server/plain-files/match-plain-files.ts";

/** Truth: The National Archives, UK, which captures belong to which form; see the fixture's README. */
const FOLDER = fileURLToPath(new URL("../fixtures/prints-on-forms/", import.meta.url));

test("real captures of one form are known as the same, and the same printed form with other writing never is", async () => {
  const names = readdirSync(FOLDER).filter((name) => name.endsWith(".jpg"));
  const files = await Promise.all(
    names.map(async (name) => {
      const read = await recognisable(`${FOLDER}${name}`, { formatId: null, sheetMm: null, method: null });
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
