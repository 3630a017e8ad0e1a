import { writeFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { insertPlace } from "#drizzle/queries/places.ts";
import { insertPrint } from "#drizzle/queries/prints.ts";
import { emptyCollection } from "../../fixtures/collection.ts";
import { printValues } from "../../fixtures/prints.ts";
import { solander } from "./command-line.ts";

function collection() {
  const context = emptyCollection();
  const study = insertPlace(context.db, { parentId: null, kind: "room", name: "Study" });
  insertPlace(context.db, { parentId: study, kind: "box", name: "Box 4" });
  insertPlace(context.db, {
    parentId: insertPlace(context.db, { parentId: null, kind: "room", name: "Attic" }),
    kind: "box",
    name: "Box 4",
  });
  insertPrint(context.db, printValues("1978.1", { processId: "inkjet", placeId: 2, significance: 4 }), context.now());
  const file = path.join(context.folder.exports, "logger.csv");
  const rows = Array.from(
    { length: 24 * 8 },
    (_, hour) => `${new Date((1_780_000_000 + hour * 3600) * 1000).toISOString().slice(0, 19)}Z,20.0,50.0`,
  );
  writeFileSync(file, `when,temperature,rh\n${rows.join("\n")}\nlater,1,1\n`);
  return { directory: context.folder.root, file };
}

test("a logger's file comes in, is judged, and the print that lives there is on the list of care", async () => {
  const { directory, file } = collection();
  const place = ["--place", "study > box 4", "--collection", directory];
  const made = await solander(["climate", "import", file, ...place]);
  expect(made.code).toBe(1);
  expect(made.answer).toContain("192 readings added to Study › Box 4");
  expect(made.answer).toContain("row 194: later | 1 | 1");
  const shown = await solander(["climate", "show", "--stretch", "all", ...place]);
  expect(shown.answer).toContain("outside 100.0 %");
  expect(shown.answer).toContain(
    "Ageing 1.00 times as fast as in a steady 20 °C by temperature alone, 1.00 times as in 20 °C and 50 % with humidity.",
  );
  const care = await solander(["care", "--json", "--collection", directory]);
  expect(JSON.parse(care.answer)).toMatchObject([
    { print: { objectNumber: "1978.1" }, priority: { unknown: expect.arrayContaining(["condition"]) } },
  ]);
  const careIn = async (name: string) =>
    JSON.parse((await solander(["care", "--json", "--place", name, "--collection", directory])).answer);
  expect(await careIn("Study")).toHaveLength(1);
  expect(await careIn("Attic")).toEqual([]);
});

test("a place that nobody knows, one that two are called by, and a column that is not there are told in words", async () => {
  const { directory, file } = collection();
  const asked = (...args: string[]) => solander(["climate", "import", file, "--collection", directory, ...args]);
  expect((await asked("--place", "Cellar")).told).toContain("No place is called “Cellar”. Places: Attic;");
  expect((await asked("--place", "Box 4")).told).toContain("Say which: Attic › Box 4; Study › Box 4.");
  expect((await asked("--place", "Study", "--humidity", "damp")).told).toContain(
    "No column is called “damp”. Columns: when; temperature; rh.",
  );
  expect((await asked("--place", "Study", "--zone", "soon")).told).toContain("--zone: Write the time zone");
  expect((await solander(["climate", "show", "--place", "Study", "--collection", directory])).told).toContain(
    "Nothing was read in Study yet.",
  );
});
