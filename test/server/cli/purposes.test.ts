import { readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { expect, test } from "vitest";
import { openCollection } from "#server/open-collection.ts";
import { emptyFolder, solander } from "./command-line.ts";

function collection() {
  const directory = emptyFolder();
  openCollection(directory).close();
  const run = (...args: string[]) => solander(["purposes", ...args, "--collection", directory]);
  const file = (text: string) => {
    const name = path.join(directory, "aim.json");
    writeFileSync(name, text);
    return name;
  };
  return { run, file };
}

const SCHEMA = JSON.parse(readFileSync(new URL("../../../src/server/cli/schemas/aim.schema.json", import.meta.url), "utf8"));

test("purposes are listed, and each is read in words and for programs", async () => {
  const { run } = collection();
  const listed = JSON.parse((await run("list", "--json")).answer);
  expect(listed.map(({ key, readyMade }: { key: string; readyMade: boolean }) => [key, readyMade])).toEqual([
    ["preservation-master", true],
    ["reproduction", true],
    ["screen", true],
  ]);
  const { code, answer } = await run("show", "preservation-master");
  expect(code).toBe(0);
  expect(answer).toContain("Sampling: at least 392 ppi; weight 3");
  expect(await run("show", "no-such")).toMatchObject({ code: 2, answer: "" });
  expect((await run("show", "screen", "--aim-version", "9")).told).toContain("no version 9");
});

test("what export writes fits the schema, comes in under another name, and then as a new version", async () => {
  const { run, file } = collection();
  const exported = JSON.parse((await run("export", "preservation-master")).answer);
  const validate = new Ajv2020({ strict: true }).compile(SCHEMA);
  expect(validate(exported), JSON.stringify(validate.errors)).toBe(true);
  expect(validate({ ...exported, limits: { beauty: exported.limits.samplingPpi } })).toBe(false);

  expect(await run("import", file(JSON.stringify(exported)))).toMatchObject({
    code: 1,
    told: expect.stringContaining("already a purpose called"),
  });
  const made = await run("import", file(JSON.stringify({ ...exported, name: "Walls" })), "--json");
  expect(JSON.parse(made.answer)).toEqual({ key: "own-walls", version: 1 });
  expect(JSON.parse((await run("export", "own-walls")).answer)).toEqual({ ...exported, name: "Walls" });

  exported.limits.samplingPpi.requiredAtLeast = 250;
  const again = await run(
    "import",
    file(JSON.stringify({ ...exported, name: "Walls" })),
    "--into",
    "own-walls",
    "--note",
    "Lenient.",
    "--json",
  );
  expect(JSON.parse(again.answer)).toEqual({ key: "own-walls", version: 2 });
  const shown = JSON.parse((await run("show", "own-walls", "--json")).answer);
  expect(shown.limits.samplingPpi.requiredAtLeast).toBe(250);
  expect(shown.versions.map(({ version, note }: { version: number; note: string | null }) => [version, note])).toEqual([
    [2, "Lenient."],
    [1, null],
  ]);
  const first = JSON.parse((await run("show", "own-walls", "--aim-version", "1", "--json")).answer);
  expect(first.limits.samplingPpi.requiredAtLeast).toBe(392);
  expect(await run("import", file(JSON.stringify(exported)), "--into", "preservation-master")).toMatchObject({
    code: 1,
    told: expect.stringContaining("ready-made"),
  });
});

test("a file that is no aim is refused with what is wrong with it, and nothing is kept", async () => {
  const { run, file } = collection();
  for (const text of [
    "",
    "{",
    "[]",
    '{"format":"other"}',
    JSON.stringify({ format: "solander-aim", formatVersion: 1, name: "Walls", asks: "x", limits: {} }),
  ])
    expect(await run("import", file(text))).toMatchObject({ code: 2, answer: "" });
  const wrong = {
    format: "solander-aim",
    formatVersion: 1,
    name: "Walls",
    asks: "x",
    limits: { samplingPpi: { sense: "at-least", lowest: 9, best: 5, weight: 1 } },
  };
  expect((await run("import", file(JSON.stringify(wrong)))).told).toContain("limits.samplingPpi.lowest: More is better");
  expect(JSON.parse((await run("list", "--json")).answer)).toHaveLength(3);
});
