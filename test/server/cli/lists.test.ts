import { existsSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { parse } from "csv-parse/sync";
import { expect, test } from "vitest";
import { setUpInput } from "#domain/capture/set-up.ts";
import { surveyInput } from "#domain/condition/survey-input.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import { findPrintByNumber } from "#drizzle/queries/prints.ts";
import { createSetUp } from "#server/actions/create-set-up.ts";
import { recordSurvey } from "#server/actions/record-survey.ts";
import { openCollection } from "#server/open-collection.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyFolder, solander } from "./command-line.ts";

/** A collection on disk, closed: one print well captured, one by a phone alone. */
function collectionOnDisk(): string {
  const directory = emptyFolder();
  const context = openCollection(directory);
  const study = insertPlace(context.db, { parentId: null, kind: "room", name: "Study" });
  const box = insertPlace(context.db, { parentId: study, kind: "box", name: "Box 4" });
  const good = keptPrint(context.db, "1978.001", { placeId: box });
  const poor = keptPrint(context.db, "1978.002", { placeId: box, title: "On the pier" });
  measuredCapture(context.db, good, GOOD_ENOUGH, { fileName: "stand.tif", method: "copy-stand-camera" });
  measuredCapture(context.db, poor, { ...GOOD_ENOUGH, lossless: 0 }, { fileName: "phone.jpg", method: "phone-camera" });
  context.close();
  return directory;
}

const inCollection = (directory: string, ...args: string[]) => solander([...args, "--collection", directory]);

test("choose says the master of each print and purpose, and why", async () => {
  const { code, answer } = await inCollection(collectionOnDisk(), "choose");
  expect(code).toBe(0);
  expect(answer).toContain("1978.001  preservation-master: stand.tif is the only capture, and meets every requirement.\n");
  expect(answer).toContain(
    "1978.002  preservation-master: phone.jpg is the only capture, and cannot be master: its compression throws values away.\n",
  );
});

test("choose can be kept to one print, and a number that does not exist ends with 2", async () => {
  const directory = collectionOnDisk();
  const { answer } = await inCollection(directory, "choose", "--print", "1978.002", "--json");
  expect(new Set(JSON.parse(answer).map((each: { objectNumber: string }) => each.objectNumber))).toEqual(new Set(["1978.002"]));
  expect(await inCollection(directory, "choose", "--print", "1999.9")).toMatchObject({ code: 2, answer: "" });
});

test("recapture is a work sheet by place, with what to change", async () => {
  const directory = collectionOnDisk();
  await inCollection(directory, "choose");
  const { code, answer } = await inCollection(directory, "recapture");
  expect(code).toBe(0);
  expect(answer).toMatch(
    /^1 capture to make\.\n\nStudy › Box 4\n {2}1978\.002 On the pier \(preservation master; best so far phone\.jpg\)\n {4}Its compression throws values away\.\n {6}> /,
  );
});

test("recapture names a capture in the tray that carries the print's number and that side, and no other", async () => {
  const directory = collectionOnDisk();
  const context = openCollection(directory);
  const again = measuredCapture(context.db, null, GOOD_ENOUGH, { fileName: "1978.002_again.tif" });
  for (const fileName of ["1978.002_back.tif", "1978.0021.tif", "loose.tif"]) measuredCapture(context.db, null, GOOD_ENOUGH, { fileName });
  context.close();
  await inCollection(directory, "choose");
  const { answer } = await inCollection(directory, "recapture");
  expect(answer.match(/In the tray.*/g)).toEqual([
    "In the tray, by its name of this print: 1978.002_again.tif. Say in the tray that it shows the print, and this may change.",
  ]);
  const [line, ...others] = JSON.parse((await inCollection(directory, "recapture", "--json")).answer);
  expect(others).toEqual([]);
  expect(line.inTray).toEqual([{ captureId: again, fileName: "1978.002_again.tif" }]);
  const reopened = openCollection(directory);
  measuredCapture(reopened.db, null, GOOD_ENOUGH, { fileName: "1978.002_last.tif" });
  reopened.close();
  expect((await inCollection(directory, "recapture")).answer.match(/In the tray.*/g)).toEqual([
    "In the tray, by their names of this print: 1978.002_again.tif, 1978.002_last.tif. Say in the tray which of them show the print, and this may change.",
  ]);
});

test("recapture for programs is the same list as JSON, and nothing else on standard output", async () => {
  const directory = collectionOnDisk();
  await inCollection(directory, "choose");
  const { answer } = await inCollection(directory, "recapture", "--json");
  expect(JSON.parse(answer)).toMatchObject([{ objectNumber: "1978.002", why: "falls-short", reasons: [{ measure: "lossless" }] }]);
});

test("inventory is CSV on standard output", async () => {
  const { code, answer } = await inCollection(collectionOnDisk(), "inventory", "--format", "csv");
  expect(code).toBe(0);
  expect(parse(answer, { columns: true })).toMatchObject([
    { object_number: "1978.001", place: "Study › Box 4" },
    { object_number: "1978.002", title: "On the pier" },
  ]);
});

test("inventory keeps to its filter, and to a place by its path or its name alone", async () => {
  const directory = collectionOnDisk();
  const numbers = async (...args: string[]) =>
    parse((await inCollection(directory, "inventory", ...args)).answer, { columns: true }).map(
      (row) => (row as { object_number: string }).object_number,
    );
  expect(await numbers("--search", "pier")).toEqual(["1978.002"]);
  expect(await numbers("--place", "Study/Box 4")).toEqual(["1978.001", "1978.002"]);
  expect(await numbers("--place", "box 4")).toEqual(["1978.001", "1978.002"]);
  expect(await inCollection(directory, "inventory", "--place", "Attic")).toMatchObject({ code: 2, answer: "" });
  expect(await inCollection(directory, "inventory", "--from", "some day")).toMatchObject({ code: 2, answer: "" });
});

test("inventory writes to a file, and never over one unless told to", async () => {
  const directory = collectionOnDisk();
  const file = path.join(directory, "list.csv");
  const first = await inCollection(directory, "inventory", "--output", file);
  expect(first).toMatchObject({ code: 0, answer: "" });
  expect(first.told).toContain("2 prints written");
  expect(readFileSync(file, "utf8").startsWith("object_number,")).toBe(true);
  writeFileSync(file, "mine");
  expect(await inCollection(directory, "inventory", "--output", file)).toMatchObject({ code: 2 });
  expect(readFileSync(file, "utf8")).toBe("mine");
  await inCollection(directory, "inventory", "--output", file, "--overwrite");
  expect(readFileSync(file, "utf8")).not.toBe("mine");
  expect(await inCollection(directory, "inventory", "--output", path.join(directory, "none", "list.csv"))).toMatchObject({ code: 2 });
  expect(existsSync(path.join(directory, "none"))).toBe(false);
});

test("the inventory is narrowed to prints to be captured again, for any reason or for one", async () => {
  const directory = collectionOnDisk();
  await inCollection(directory, "choose");
  const numbers = async (reason: string) => {
    const { answer } = await inCollection(directory, "inventory", "--recapture", reason, "--json");
    return JSON.parse(answer).map((row: { print: { objectNumber: string } }) => row.print.objectNumber);
  };
  expect(await numbers("needed")).toEqual(["1978.002"]);
  expect(await numbers("lossless")).toEqual(["1978.002"]);
  expect(await numbers("samplingPpi")).toEqual([]);
  expect((await inCollection(directory, "inventory", "--recapture", "beauty")).code).toBe(2);
});

test("due lists what asks for another look and what nobody has seen, by place and day", async () => {
  const directory = collectionOnDisk();
  const context = openCollection(directory);
  const print = findPrintByNumber(context.db, "1978.002");
  const found = [{ term: "mould", severity: "2", activity: "active" }];
  recordSurvey(context, { printId: print?.id ?? 0, input: surveyInput.parse({ surveyedOn: "2020-03-31", grade: "", found }) });
  context.close();
  const { code, answer } = await inCollection(directory, "due");
  expect(code).toBe(0);
  expect(answer).toBe(
    "1 look is due.\n  2020-04-30  1978.002 On the pier: mould spreads, speeds up or loses picture\n\nNever looked at: 1.\n  1978.001\n",
  );
  const asJson = await inCollection(directory, "due", "--by", "2020-04-29", "--place", "study", "--json");
  expect(JSON.parse(asJson.answer)).toMatchObject({ by: "2020-04-29", due: [], never: [{ objectNumber: "1978.001" }] });
  expect(await inCollection(directory, "due", "--place", "Attic")).toMatchObject({ code: 2, answer: "" });
  expect(await inCollection(directory, "due", "--by", "soon")).toMatchObject({ code: 2, answer: "" });
});

test("plan works out what a scanner can do for a size, and ends with 1 where that falls short", async () => {
  const directory = collectionOnDisk();
  const plan = (ppi: number) =>
    inCollection(directory, "plan", "--figure", `scannerPpi=${ppi}`, "--figure", "printWidthMm=88", "--figure", "printHeightMm=107");
  const { code, answer } = await plan(300);
  expect(code).toBe(1);
  expect(answer).toContain("300 ppi");
  expect(answer).toContain("Set the scanner to 600 ppi");
  expect((await plan(600)).code).toBe(0);
});

test("plan counts in the currency of the set-up it starts from, until another is written", async () => {
  const directory = collectionOnDisk();
  const context = openCollection(directory);
  createSetUp(context, setUpInput.parse({ name: "Priced", method: "flatbed-scanner", priceAmount: "300", priceCurrency: "SEK" }));
  context.close();
  const figures = { scannerPpi: 600, printWidthMm: 88, printHeightMm: 107, minutesPerPrint: 60, price: 5, pricePerHour: 20 };
  const given = Object.entries(figures).flatMap(([name, value]) => ["--figure", `${name}=${value}`]);
  const plan = async (...more: string[]) => (await inCollection(directory, "plan", "--set-up", "Priced", ...given, ...more)).answer;
  expect(await plan()).toContain("Cost: 25.00 SEK.");
  expect(await plan("--figure", "currency=CHF")).toContain("Cost: 25.00 CHF.");
});

test("plan refuses a figure that it does not know, and names those it does", async () => {
  const { code, told } = await inCollection(collectionOnDisk(), "plan", "--figure", "pixels=600");
  expect(code).toBe(2);
  expect(told).toContain("scannerPpi");
});

test("plan's refusals name the figure as it is written, with its unit or its choices, and --help tells them of all", async () => {
  const directory = collectionOnDisk();
  const size = ["--figure", "printWidthMm=88", "--figure", "printHeightMm=107"];
  const wrong = await inCollection(
    directory,
    "plan",
    ...size,
    "--figure",
    "scannerPpi=600",
    "--figure",
    "glass=window",
    "--figure",
    "bedWidthMm=wide",
  );
  expect(wrong.code).toBe(2);
  expect(wrong.told).toContain("--figure glass=…, Glass over the print (none, plain, coated): Choose what glass lies over the print.");
  expect(wrong.told).toContain("--figure bedWidthMm=…, Scanner's bed, width (mm): ");
  const none = await inCollection(directory, "plan", ...size);
  expect(none.told).toContain("a scanner's setting.");
  expect(none.told).not.toContain("below");
  const help = (await inCollection(directory, "plan", "--help")).answer;
  expect(help).toMatch(/lampCount +Lamps \(1, 2, 4\)/);
  expect(help).toMatch(/focalLengthMm +Focal length \(mm\)/);
});

test("a work sheet is made, listed and shown by the command line, and made a second time only of what waits on none", async () => {
  const directory = collectionOnDisk();
  await inCollection(directory, "choose");
  const made = await inCollection(directory, "worksheet", "make", "--place", "Box 4", "--name", "Monday");
  expect(made.code).toBe(0);
  expect(made.answer).toContain("Work sheet 1: Monday. 1 row, 0 of 1 side done.");
  expect(made.answer).toContain("Study › Box 4");
  expect(made.answer).toContain("[ ] 1978.002 On the pier (priority 24 = need 1 x care 8 x significance 3)");
  expect(made.answer).toContain("Its compression throws values away.");
  expect((await inCollection(directory, "worksheet", "list")).answer).toMatch(/^ {3}1 {2}\d{4}-\d{2}-\d{2} {2}Monday: 0 of 1 side done\n$/);
  const shown = await inCollection(directory, "worksheet", "show", "1", "--json");
  expect(JSON.parse(shown.answer)).toMatchObject({ name: "Monday", rows: [{ objectNumber: "1978.002", state: "open" }] });
  const again = await inCollection(directory, "worksheet", "make");
  expect(again).toMatchObject({ code: 1, answer: "" });
  expect(again.told).toContain("waits on a work sheet already");
  expect(await inCollection(directory, "worksheet", "show", "7")).toMatchObject({ code: 2, answer: "" });
  expect(await inCollection(directory, "worksheet", "make", "--most", "few")).toMatchObject({ code: 2, answer: "" });
  expect((await inCollection(directory, "worksheet", "make", "--place", "Nowhere")).code).toBe(2);
});

test("a work sheet is put away by the command line once its rows are done, is marked in the list, and is taken out again", async () => {
  const directory = collectionOnDisk();
  await inCollection(directory, "choose");
  await inCollection(directory, "worksheet", "make", "--place", "Box 4", "--name", "Monday");
  const early = await inCollection(directory, "worksheet", "put-away", "1");
  expect(early).toMatchObject({ code: 1, answer: "" });
  expect(early.told).toContain("1 of its rows is not done yet");
  const context = openCollection(directory);
  context.db.$client.prepare("update work_sheet_rows set state = 'closed'").run();
  context.close();
  const listed = async () => (await inCollection(directory, "worksheet", "list")).answer;
  expect((await inCollection(directory, "worksheet", "put-away", "1")).code).toBe(0);
  expect(await listed()).toMatch(/Monday: .*, put away\n$/);
  expect((await inCollection(directory, "worksheet", "take-out", "1")).code).toBe(0);
  expect(await listed()).not.toContain("put away");
  expect(await inCollection(directory, "worksheet", "put-away", "7")).toMatchObject({ code: 2, answer: "" });
});
