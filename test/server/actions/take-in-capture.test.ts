import { existsSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { Readable } from "node:stream";
import sharp from "sharp";
import { expect, test, vi } from "vitest";
import { findCapture, listOriginals, listTray } from "#drizzle/queries/captures.ts";
import { historyOfPrint } from "#drizzle/queries/events.ts";
import { setPrintBinned } from "#drizzle/queries/prints.ts";
import { workProgress } from "#drizzle/queries/work-progress.ts";
import { checkFixity } from "#server/actions/check-fixity.ts";
import { putAwayCapture } from "#server/actions/put-away-capture.ts";
import { type TakeInCapture, takeInCapture } from "#server/actions/take-in-capture.ts";
import { originalPath } from "#server/collection-folder.ts";
import type { Context } from "#server/context.ts";
import { keptPrint } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const picture = (shade: number) => sharp({ create: { width: 20, height: 10, channels: 3, background: { r: shade, g: 90, b: 30 } } });

async function takeIn(context: Context, originalName: string, bytes: Buffer, said: Partial<TakeInCapture> = {}) {
  const taken = await takeInCapture(context, { source: Readable.from([bytes]), originalName, ...said });
  if (!taken.ok) throw new Error(JSON.stringify(taken.refusals));
  return taken.value;
}

test("a file named after a print finds it; file, rows, history and work are there together", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.004.012");
  const bytes = await picture(1).png().toBuffer();
  const taken = await takeIn(context, "1978.004.012_front.png", bytes);
  expect(taken).toMatchObject({ printId, alreadyHeld: false, notes: [] });
  const capture = findCapture(context.db, taken.captureId);
  expect(capture).toMatchObject({
    printId,
    side: "front",
    original: { originalName: "1978.004.012_front.png", kind: "png", widthPx: 20, heightPx: 10 },
  });
  expect(readFileSync(originalPath(context.folder, capture?.original.sha256 ?? ""))).toEqual(bytes);
  expect(workProgress(context.db).waiting).toBe(1);
  expect(historyOfPrint(context.db, printId)).toMatchObject([{ verb: "taken in", subject: "capture", subjectId: taken.captureId }]);
  expect(readdirSync(context.folder.incoming)).toEqual([]);
});

test("the side is read from the name after the number; what is said beats it, and what names no print says no side", async () => {
  const context = emptyCollection();
  keptPrint(context.db, "1978.004.012");
  const sideOf = async (name: string, shade: number, said: Partial<TakeInCapture> = {}) => {
    const { captureId } = await takeIn(context, name, await picture(shade).png().toBuffer(), said);
    return findCapture(context.db, captureId)?.side;
  };
  expect(await sideOf("1978.004.012_verso.png", 1)).toBe("back");
  expect(await sideOf("1978.004.012.png", 2)).toBe("front");
  expect(await sideOf("1978.004.012_back.png", 3, { side: "front" })).toBe("front");
  expect(await sideOf("IMG_1_back.png", 4)).toBe("front");
});

test("a file whose name says nothing waits in the tray", async () => {
  const context = emptyCollection();
  const taken = await takeIn(context, "IMG_0001.png", await picture(1).png().toBuffer());
  expect(taken.printId).toBeNull();
  expect(listTray(context.db).map(({ id }) => id)).toEqual([taken.captureId]);
});

test("what is said beats what is guessed, and is marked as said", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "A.1");
  const bytes = await picture(1)
    .withExif({ IFD2: { FocalLength: "42/10" } })
    .jpeg()
    .toBuffer();
  const guessed = await takeIn(context, "x.jpg", bytes);
  expect(findCapture(context.db, guessed.captureId)).toMatchObject({ method: "phone-camera", methodBasis: "guessed" });
  const said = await takeIn(context, "y.jpg", await picture(2).jpeg().toBuffer(), { printId, side: "back", method: "flatbed-scanner" });
  expect(findCapture(context.db, said.captureId)).toMatchObject({
    printId,
    side: "back",
    method: "flatbed-scanner",
    methodBasis: "said",
  });
});

test("the same bytes again are said to be here, and not stored twice", async () => {
  const context = emptyCollection();
  const bytes = await picture(1).png().toBuffer();
  const first = await takeIn(context, "a.png", bytes);
  const second = await takeIn(context, "b.png", bytes);
  expect(second).toMatchObject({ alreadyHeld: true, captureId: first.captureId, notes: [expect.stringContaining("a.png")] });
  expect(listOriginals(context.db)).toHaveLength(1);
  expect(readdirSync(context.folder.incoming)).toEqual([]);
});

test("the same bytes from two hands at once make one capture", async () => {
  const context = emptyCollection();
  const bytes = await picture(1).png().toBuffer();
  const both = await Promise.all([takeIn(context, "a.png", bytes), takeIn(context, "b.png", bytes)]);
  expect(both.map(({ alreadyHeld }) => alreadyHeld).sort()).toEqual([false, true]);
  expect(listOriginals(context.db)).toHaveLength(1);
});

test("an original that had gone missing is put back by the same bytes", async () => {
  const context = emptyCollection();
  const bytes = await picture(1).png().toBuffer();
  await takeIn(context, "a.png", bytes);
  const file = originalPath(context.folder, listOriginals(context.db)[0]?.sha256 ?? "");
  rmSync(file);
  const again = await takeIn(context, "a.png", bytes);
  expect(again.notes.join()).toContain("put back");
  expect(readFileSync(file)).toEqual(bytes);
});

test("bytes that were kept but never written down are taken in when they are added again", async () => {
  const context = emptyCollection();
  const bytes = await picture(1).png().toBuffer();
  context.db.$client.exec("create trigger full before insert on work begin select raise(abort, 'no'); end");
  await expect(takeIn(context, "a.png", bytes)).rejects.toThrow();
  expect(listOriginals(context.db)).toEqual([]);
  context.db.$client.exec("drop trigger full");
  const taken = await takeIn(context, "a.png", bytes);
  expect(taken.alreadyHeld).toBe(false);
  expect(readFileSync(originalPath(context.folder, listOriginals(context.db)[0]?.sha256 ?? ""))).toEqual(bytes);
});

test("no name becomes a path or two lines", async () => {
  const context = emptyCollection();
  await takeIn(context, "..\\..\\/etc/pass\r\nwd.png", await picture(1).png().toBuffer());
  expect(listOriginals(context.db)[0]?.originalName).toBe("pass wd.png");
  expect(existsSync("/etc/pass wd.png")).toBe(false);
});

test("a print in the bin, a print and a set-up that do not exist, are refused before anything is copied", async () => {
  const context = emptyCollection();
  const binned = keptPrint(context.db, "A.1");
  setPrintBinned(context.db, binned, "2026-01-01T00:00:00Z");
  for (const said of [{ printId: binned }, { printId: 999 }, { setUpId: 999 }]) {
    const taken = await takeInCapture(context, { source: Readable.from([Buffer.from("x")]), originalName: "a.png", ...said });
    expect(taken).toMatchObject({ ok: false, refusals: [{ about: "a.png" }] });
  }
  expect(readdirSync(context.folder.captures, { recursive: true })).toEqual(["incoming"]);
});

test("a name that belongs to a print in the bin waits in the tray, and says so", async () => {
  const context = emptyCollection();
  setPrintBinned(context.db, keptPrint(context.db, "A.1"), "2026-01-01T00:00:00Z");
  const taken = await takeIn(context, "A.1.png", await picture(1).png().toBuffer());
  expect(taken).toMatchObject({ printId: null, notes: [expect.stringContaining("in the bin")] });
});

test("something that is no picture is refused with what it is, and leaves nothing", async () => {
  const context = emptyCollection();
  const taken = await takeInCapture(context, { source: Readable.from([Buffer.from("%PDF-1.7")]), originalName: "scan.jpg" });
  expect(taken).toEqual({
    ok: false,
    refusals: [{ about: "scan.jpg", happened: expect.stringContaining("a PDF document"), remedy: expect.stringContaining("TIFF") }],
  });
  expect(readdirSync(context.folder.captures, { recursive: true })).toEqual(["incoming"]);
});

test.each([
  ["cut short", (file: string) => truncateSync(file, 10)],
  [
    "changed, and found so by a check",
    (file: string) =>
      writeFileSync(
        file,
        readFileSync(file).map((byte, at) => (at === 60 ? byte ^ 1 : byte)),
      ),
  ],
])("an original that was %s is put back by the same bytes and measured again", async (_, spoil) => {
  const context = emptyCollection();
  const bytes = await picture(7).png().toBuffer();
  const { captureId } = await takeIn(context, "a.png", bytes);
  const file = originalPath(context.folder, findCapture(context.db, captureId)?.original.sha256 ?? "");
  spoil(file);
  await checkFixity(context);
  const again = await takeIn(context, "a.png", bytes);
  expect(again.notes.join(" ")).toContain("it has been put back");
  expect(readFileSync(file)).toEqual(bytes);
  expect((await takeIn(context, "a.png", bytes)).notes.join(" ")).not.toContain("put back");
});

test("a file that waits in the tray gets its print when it is added again with the number; one that has a print keeps it", async () => {
  const context = emptyCollection();
  const [one, two] = [keptPrint(context.db, "1"), keptPrint(context.db, "2")];
  const bytes = await picture(8).png().toBuffer();
  const { captureId } = await takeIn(context, "IMG_8.png", bytes);
  expect(await takeIn(context, "IMG_8.png", bytes, { printId: one, side: "back" })).toMatchObject({
    captureId,
    printId: one,
    alreadyHeld: true,
  });
  expect(findCapture(context.db, captureId)).toMatchObject({ printId: one, side: "back" });
  const again = await takeIn(context, "IMG_8.png", bytes, { printId: two });
  expect(again.notes.join(" ")).toContain("belongs to another print already");
  expect(findCapture(context.db, captureId)?.printId).toBe(one);
});

test.each(["SQLITE_FULL", "SQLITE_IOERR_WRITE", "SQLITE_BUSY"])(
  "%s when the record is written is told in words, and the same file added again is found",
  async (code) => {
    const context = emptyCollection();
    const bytes = await picture(9).png().toBuffer();
    const transaction = vi.spyOn(context.db, "transaction").mockImplementationOnce(() => {
      throw Object.assign(new Error("database"), { code });
    });
    const taken = await takeInCapture(context, { source: Readable.from([bytes]), originalName: "a.png" });
    expect(taken).toMatchObject({ ok: false, refusals: [{ about: "a.png", remedy: expect.stringContaining("add the file again") }] });
    transaction.mockRestore();
    expect(await takeIn(context, "a.png", bytes)).toMatchObject({ alreadyHeld: false });
  },
);

test("a file whose capture was put away is said to be so when it is added again, and stays put away", async () => {
  const context = emptyCollection();
  const bytes = await picture(1).png().toBuffer();
  const { captureId } = await takeIn(context, "holiday.png", bytes);
  putAwayCapture(context, { captureId, reason: "A holiday picture." });
  const again = await takeIn(context, "holiday.png", bytes);
  expect(again).toMatchObject({ captureId, alreadyHeld: true });
  expect(again.notes.join(" ")).toContain("It was put away. Take it back first");
  expect(listTray(context.db)).toEqual([]);
  expect(readFileSync(originalPath(context.folder, findCapture(context.db, captureId)?.original.sha256 ?? ""))).toEqual(bytes);
});
