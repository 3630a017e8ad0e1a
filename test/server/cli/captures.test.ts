import { expect, test } from "vitest";
import { openCollection } from "#server/open-collection.ts";
import { keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyFolder, solander } from "./command-line.ts";

/** A collection with a capture of a print and one in the tray. */
function collection() {
  const directory = emptyFolder();
  const context = openCollection(directory);
  const printId = keptPrint(context.db, "1978.001");
  const ofPrint = measuredCapture(context.db, printId, {}, { fileName: "front.tif" });
  const inTray = measuredCapture(context.db, null, {}, { fileName: "loose.tif" });
  context.close();
  const run = (...args: string[]) => solander(["captures", ...args, "--collection", directory]);
  return { run, ofPrint, inTray };
}

test("captures are listed with their numbers, of the tray and of a print", async () => {
  const { run, ofPrint, inTray } = collection();
  expect((await run("list")).answer).toBe(`In the tray, of no print yet:\n${String(inTray).padStart(6)}  loose.tif\n`);
  expect((await run("list", "--print", "1978.001")).answer).toBe(`Of print 1978.001:\n${String(ofPrint).padStart(6)}  front.tif  front\n`);
  expect(JSON.parse((await run("list", "--json")).answer)).toEqual([
    { captureId: inTray, name: "loose.tif", side: "front", objectNumber: null },
  ]);
  expect(JSON.parse((await run("list", "--print", "1978.001", "--json")).answer)).toMatchObject([
    { captureId: ofPrint, objectNumber: "1978.001" },
  ]);
  expect(await run("list", "--print", "1978.999")).toMatchObject({ code: 2, told: "There is no print 1978.999.\n" });
});

test("a capture is put away with its reason and taken back", async () => {
  const { run, ofPrint } = collection();
  expect(await run("put-away", String(ofPrint), "--reason", "The wrong print.")).toMatchObject({ code: 0 });
  expect((await run("list", "--print", "1978.001")).answer).toBe("This print has no capture.\n");
  expect((await run("list", "--away")).answer).toContain("The wrong print.");
  expect(JSON.parse((await run("list", "--away", "--json")).answer)).toMatchObject([{ captureId: ofPrint, name: "front.tif" }]);
  expect(await run("take-back", String(ofPrint))).toMatchObject({ code: 0 });
  expect((await run("list", "--away")).answer).toBe("No capture was put away.\n");
});

test("a reason reaches the terminal as one line, without the control characters that it would obey", async () => {
  const { run, ofPrint } = collection();
  await run("put-away", String(ofPrint), "--reason", "\u001b[31mThe wrong\u0007\r\nprint.");
  const [, reason] = (await run("list", "--away")).answer.split(/ by [^:]+: /);
  expect(reason).toBe("[31mThe wrong print.\n");
});

test.each([
  ["no reason", ["put-away", "1", "--reason", " "], 2, "Say why"],
  ["a name in the place of a number", ["put-away", "front.tif", "--reason", "x"], 2, "is no capture's number"],
  ["a capture that is not there", ["take-back", "999"], 1, "This capture does not exist."],
])("%s is refused", async (_, args, code, said) => {
  const ran = await collection().run(...args);
  expect(ran.code).toBe(code);
  expect(ran.told).toContain(said);
});
