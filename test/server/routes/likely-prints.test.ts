import { createReadStream, writeFileSync } from "node:fs";
import path from "node:path";
import { expect, test, vi } from "vitest";
import { findCapture } from "#drizzle/queries/captures.ts";
import { replaceFingerprints } from "#drizzle/queries/fingerprints.ts";
import { takeInCapture } from "#server/actions/take-in-capture.ts";
import { createApp } from "#server/app.ts";
import type { Context } from "#server/context.ts";
import { matchAmong, recognisable } from "#server/plain-files/match-plain-files.ts";
import { startWork } from "#server/work/queue.ts";
import { Thread } from "#server/work/thread.ts";
import { keptPrint } from "../../fixtures/captured-print.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { emptyCollection } from "../../fixtures/collection.ts";
import { codesAsImage } from "../../fixtures/image-files.ts";

async function takeIn(
  context: Context,
  seed: number,
  name: string,
  printId: number | undefined,
  blurPx: number,
  cut = false,
): Promise<number> {
  const { picture, truth } = captureSheet({ seed, blurPx, ppi: 120, turnDeg: cut ? 0 : 3 });
  const file = path.join(context.folder.root, name);
  const image = codesAsImage(picture.codes, picture.widthPx, picture.heightPx, 3);
  const [from, to] = [truth.image.topLeft, truth.image.bottomRight];
  const [left, top] = [Math.ceil(from.x) + 2, Math.ceil(from.y) + 2];
  if (cut) image.extract({ left, top, width: Math.floor(to.x) - 2 - left, height: Math.floor(to.y) - 2 - top });
  writeFileSync(file, await image.png().toBuffer());
  const taken = await takeInCapture(context, {
    source: createReadStream(file),
    originalName: name,
    ...(printId !== undefined && { printId }),
  });
  if (!taken.ok) throw new Error(taken.refusals[0]?.happened);
  return taken.value.captureId;
}

test("a capture in the tray is shown beside the print it may show, and assigned when a person says so", async () => {
  const context = emptyCollection();
  const size = { sheetWidthMm: SMALL.widthMm, sheetHeightMm: SMALL.heightMm };
  const own = keptPrint(context.db, "1978.001", size);
  await takeIn(context, 31, "a.png", own, 0.6);
  await takeIn(context, 32, "b.png", keptPrint(context.db, "1978.002", size), 0.6);
  const waiting = await takeIn(context, 31, "found.png", undefined, 0.9);
  const app = createApp(context);
  const early = await (await app.request(`/captures/${waiting}/likely-prints`)).text();
  expect(early).toContain("it has not been measured yet, or must be measured again");
  const work = startWork(context, {});
  await work.idle();
  await work.stop();
  const page = await (await app.request(`/captures/${waiting}/likely-prints`)).text();
  expect(page).toContain("It is 1978.001");
  expect(page).not.toContain("1978.002");
  const body = new URLSearchParams({ print: "1978.001", side: "front" });
  const headers = { "content-type": "application/x-www-form-urlencoded", "sec-fetch-site": "same-origin" };
  expect((await app.request(`/captures/${waiting}/print`, { method: "POST", body, headers })).status).toBe(303);
  expect(findCapture(context.db, waiting)?.printId).toBe(own);
  expect((await app.request(`/captures/${waiting}/likely-prints`)).status).toBe(404);
});

test("where the pictures cannot be compared the page says so and offers to look again, and one look waits for another", async () => {
  const context = emptyCollection();
  const print = keptPrint(context.db, "1978.001", { sheetWidthMm: SMALL.widthMm, sheetHeightMm: SMALL.heightMm });
  await takeIn(context, 31, "a.png", print, 0.6);
  const waiting = await takeIn(context, 31, "found.png", undefined, 0.9);
  const work = startWork(context, {});
  await work.idle();
  await work.stop();
  let [underWay, most] = [0, 0];
  const looking = vi.spyOn(Thread.prototype, "run").mockImplementation(async () => {
    most = Math.max(most, ++underWay);
    await new Promise((resolve) => setTimeout(resolve, 20));
    underWay--;
    return { fault: "short of memory" };
  });
  const told = vi.spyOn(console, "error").mockImplementation(() => {});
  const address = `/captures/${waiting}/likely-prints`;
  const answers = await Promise.all([1, 2, 3].map(() => createApp(context).request(address)));
  expect([looking.mock.calls.length, most]).toEqual([3, 1]);
  for (const answer of answers) {
    expect(answer.status).toBe(503);
    const page = await answer.text();
    expect(page).toContain("The pictures could not be compared");
    expect(page).toContain(`<a href="${address}">Look again</a>`);
  }
  expect(told).toHaveBeenCalledWith("short of memory");
  const closing = await createApp({ ...context, ending: AbortSignal.abort() }).request(address);
  expect(await closing.text()).toContain("the collection is being closed");
  vi.restoreAllMocks();
});

test("a capture that nothing resembles is said to be so", async () => {
  const context = emptyCollection();
  const waiting = await takeIn(context, 40, "alone.png", undefined, 0.6);
  const work = startWork(context, {});
  await work.idle();
  await work.stop();
  const page = await (await createApp(context).request(`/captures/${waiting}/likely-prints`)).text();
  expect(page).toContain("No print of the collection looks like this one");
});

test("captures of prints that cannot be looked at are counted, so that no match is not taken for none", async () => {
  const context = emptyCollection();
  const size = { sheetWidthMm: SMALL.widthMm, sheetHeightMm: SMALL.heightMm };
  const older = await takeIn(context, 31, "a.png", keptPrint(context.db, "1978.001", size), 0.6);
  const waiting = await takeIn(context, 31, "found.png", undefined, 0.9);
  const work = startWork(context, {});
  await work.idle();
  await work.stop();
  const app = createApp(context);
  const page = async () => (await app.request(`/captures/${waiting}/likely-prints`)).text();
  expect(await page()).not.toContain("could not be looked at");
  // 61 numbers, as an earlier kind had
  replaceFingerprints(context.db, older, { print: new Float32Array(61), frame: null });
  const told = await page();
  expect(told).not.toContain("It is 1978.001");
  expect(told).toContain("1 capture of a print could not be looked at");
}, 60_000);

test("captures that wait in the tray and may show one print are shown beside each other, before anybody has catalogued it", async () => {
  const context = emptyCollection();
  await takeIn(context, 62, "another.png", undefined, 0.6);
  const same = await takeIn(context, 61, "same.png", undefined, 0.6);
  const waiting = await takeIn(context, 61, "found.png", undefined, 0.9);
  const work = startWork(context, {});
  await work.idle();
  await work.stop();
  const app = createApp(context);
  const page = await (await app.request(`/captures/${waiting}/likely-prints`)).text();
  expect(page).toContain("what waits in the tray does");
  expect(page).toContain(`href="/tray?capture=${same}#capture-${same}"`);
  expect(page).toContain("Waits in the tray too. The pictures agree in their detail.");
  expect(page).not.toContain("another.png");
  expect(page).not.toMatch(/It is \d/);
}, 60_000);

test("a capture with the border of its print cropped away is known by its picture, in the app as on the command line", async () => {
  const context = emptyCollection();
  const size = { sheetWidthMm: SMALL.widthMm, sheetHeightMm: SMALL.heightMm };
  for (const seed of [51, 52, 53]) await takeIn(context, seed, `${seed}.png`, keptPrint(context.db, `1978.0${seed}`, size), 0.6);
  const waiting = await takeIn(context, 52, "found.png", undefined, 0.9, true);
  const work = startWork(context, {});
  await work.idle();
  await work.stop();
  const page = await (await createApp(context).request(`/captures/${waiting}/likely-prints`)).text();
  expect(page).toContain("It is 1978.052");
  for (const other of ["1978.051", "1978.053"]) expect(page).not.toContain(other);
  const asked = await recognisable(path.join(context.folder.root, "found.png"), SAYS_NOTHING);
  const among = await Promise.all([51, 52, 53].map((seed) => recognisable(path.join(context.folder.root, `${seed}.png`), SAYS_NOTHING)));
  if (!asked.ok) throw new Error("not read");
  const { matches } = await matchAmong(
    asked.value,
    among.flatMap((each) => (each.ok ? [each.value] : [])),
  );
  expect(matches.map(({ file, verdict }) => [path.basename(file), verdict])).toEqual([["52.png", "same"]]);
});

const SAYS_NOTHING = { formatId: null, sheetMm: null, method: null };
