import { mkdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { makeGrid } from "#domain/measure/laying/print-grid.ts";
import { findCapture } from "#drizzle/queries/captures.ts";
import { replaceReadings } from "#drizzle/queries/measures.ts";
import { createApp } from "#server/app.ts";
import { originalPath } from "#server/collection-folder.ts";
import type { Context } from "#server/context.ts";
import { writeGrid } from "#server/work/grid-file.ts";
import { keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { emptyCollection } from "../../fixtures/collection.ts";
import { disc, stainedBy } from "../../fixtures/defects/ageing.ts";
import { codesAsImage } from "../../fixtures/image-files.ts";

const words = (html: string) => html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");

/** A capture as measuring leaves it: its file, its outline, its grid. */
async function measured(context: Context, printId: number, made: Parameters<typeof captureSheet>[0], capturedAt: string | null) {
  const { picture, outline, context: known } = captureSheet(made);
  const id = measuredCapture(context.db, printId, {}, { kind: "png", capturedAt, method: "flatbed-scanner" });
  const file = originalPath(context.folder, findCapture(context.db, id)?.original.sha256 ?? "");
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(file, await codesAsImage(picture.codes, picture.widthPx, picture.heightPx, 3).png().toBuffer());
  const grid = makeGrid(picture, outline, known);
  if (grid) await writeGrid(context.folder, id, grid);
  replaceReadings(context.db, id, "alone", { readings: [], basis: { found: [outline] }, durationMs: null });
  return id;
}

test("two dated captures are held against each other: pictures, places, numbers in words, curve; and kept for the next time", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001", {
    sheetWidthMm: SMALL.widthMm,
    sheetHeightMm: SMALL.heightMm,
    imageWidthMm: 34,
    imageHeightMm: 38,
  });
  const stained = { seed: 9, turnDeg: -1, defects: [stainedBy([0, 0.05, 0.25], disc(20, 20, 4))] };
  const newer = await measured(context, printId, stained, "2026-05-01T10:00:00");
  const older = await measured(context, printId, { seed: 9, turnDeg: 1 }, "2016-05-01T10:00:00");
  const undated = await measured(context, printId, { seed: 9, turnDeg: 0 }, null);
  const app = createApp(context);
  const get = async (query: string) => (await app.request(`/prints/${printId}/change${query}`)).text();

  expect(await (await app.request(`/prints/${printId}`)).text()).toContain(`href="/prints/${printId}/change"`);
  const form = await get("");
  expect(form).toMatch(new RegExp(`<option value="${older}" selected[^>]*>[^<]*2016.*<option value="${undated}"`, "s"));
  expect(form).not.toContain("Before and after");

  const page = await get(`?older=${older}&newer=${newer}`);
  expect(words(page)).toContain("New or altered places: 1.");
  expect(words(page)).toMatch(
    /Patch, such as a stain, on the picture; [^.]*yellower Not told whether it is new or has grown: what is around it is as uneven as the change (4[89]|5[012])\.\d mm²/,
  );
  expect(words(page)).toMatch(/Border: lightness .*? [+−]?0\.\d L\* ± \d+\.\d L\* Within what the two captures can tell\./);
  expect(words(page)).toContain("Years until a published limit of fading are told from 3 or more dated captures; 2 are on the curve.");
  for (const name of ["older.jpg", "newer.jpg"]) {
    const picture = await app.request(`/prints/${printId}/change/${older}/${newer}/${name}`);
    expect(picture.headers.get("content-type")).toBe("image/jpeg");
    expect((await picture.arrayBuffer()).byteLength).toBeGreaterThan(1000);
  }
  // the kept answer is shown also when the file has gone meanwhile
  writeFileSync(originalPath(context.folder, findCapture(context.db, newer)?.original.sha256 ?? ""), "");
  expect(words(await get(`?older=${older}&newer=${newer}`))).toContain("New or altered places: 1.");
  expect(words(await get(`?older=${older}&newer=${older}`))).toContain("These are one capture");
}, 120_000); // a thread of its own reads, lays and compares both files

test("pictures of another print's captures, of unknown captures and of prints in no collection are not found", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  const app = createApp(context);
  expect((await app.request(`/prints/${printId}/change/1/2/older.jpg`)).status).toBe(404);
  expect((await app.request("/prints/99/change")).status).toBe(404);
  expect(words(await (await app.request(`/prints/${printId}/change`)).text())).toContain("there are not two yet");
});
