import { parse } from "csv-parse/sync";
import { and, eq, inArray } from "drizzle-orm";
import type { Hono } from "hono";
import { expect, test } from "vitest";
import { PURPOSE_KEYS } from "#domain/aim/aim.ts";
import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import { schema } from "#drizzle/client.ts";
import { currentAims } from "#drizzle/queries/aims.ts";
import { findCapture, setCaptureDivided } from "#drizzle/queries/captures.ts";
import { listChoicesOfPrint } from "#drizzle/queries/choices.ts";
import { listSetUps } from "#drizzle/queries/set-ups.ts";
import { claimWork, enqueueCompare, enqueueMeasure, failWork, finishWork, type Work } from "#drizzle/queries/work.ts";
import { measuringOfCaptures, workProgress } from "#drizzle/queries/work-progress.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { ensurePurposes } from "#server/actions/ensure-purposes.ts";
import { overruleMaster } from "#server/actions/overrule-master.ts";
import { putAwayCapture } from "#server/actions/put-away-capture.ts";
import { createApp } from "#server/app.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const send = (app: Hono, path: string, fields: Record<string, string> = {}) =>
  app.request(path, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: new URLSearchParams(fields) });

const page = async (app: Hono, path: string, headers: Record<string, string> = {}) => (await app.request(path, { headers })).text();

test("an empty collection opens with first steps, which go on with the first print", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  expect(await page(app, "/")).toContain("First steps");
  const printId = keptPrint(context.db, "1978.001");
  const after = await page(app, "/");
  expect(after).toContain("First steps");
  expect(after).toContain(`href="/prints/${printId}"`);
  expect(after).toContain("/add?print=1978.001");
});

test.each(["/inventory", "/labels", "/care"])(
  "%s of an empty collection says that nothing was entered, and of another that nothing fits",
  async (path) => {
    const context = emptyCollection();
    const app = createApp(context);
    expect(await page(app, path)).toContain('No print has been entered yet. <a href="/prints/new">');
    keptPrint(context.db, "1978.001");
    expect(await page(app, path)).not.toContain("No print has been entered yet");
    const narrowed = await page(app, `${path}?search=nowhere&place=999`);
    expect(narrowed).toContain("No print fits");
    expect(narrowed).not.toContain("No print has been entered yet");
  },
);

test("the overview counts what there is and leads to what waits", async () => {
  const context = emptyCollection();
  const [kept, weak] = [keptPrint(context.db, "1978.001"), keptPrint(context.db, "1978.002")];
  keptPrint(context.db, "1978.003");
  const binned = keptPrint(context.db, "1978.004", { binnedAt: "2026-01-01T00:00:00.000Z" });
  measuredCapture(context.db, binned, GOOD_ENOUGH, { fileName: "binned.jpg" });
  measuredCapture(context.db, kept, GOOD_ENOUGH);
  measuredCapture(context.db, weak, { ...GOOD_ENOUGH, samplingPpi: 200 });
  measuredCapture(context.db, null, {}, { fileName: "who-knows.jpg" });
  chooseMasters(context);
  const html = await page(createApp(context), "/");
  const counts = [...html.matchAll(/<dt>([^<]+)<\/dt><dd><a[^>]*>(\d+)<\/a>/g)].map((match) => [match[1], match[2]]);
  expect(counts).toEqual([
    ["Prints", "3"],
    ["Captures", "3"],
    ["With a preservation master", "1"],
    ["Prints to be captured again", "2"],
    ["In the tray", "1"],
  ]);
  expect(html).toContain("1 capture waits to be told which print it shows.");
  expect(html).toContain("1 print has no capture.");
  expect(html).toContain("1 print has no capture good enough to be the preservation master.");
  expect(html.replaceAll("<wbr/>", "")).toContain("who-knows.jpg");
  expect(html.replaceAll("<wbr/>", "")).not.toContain("binned.jpg");
});

test("a capture of a print in the bin says so, and leads to the bin", async () => {
  const context = emptyCollection();
  const binned = keptPrint(context.db, "1978.004", { binnedAt: "2026-01-01T00:00:00.000Z" });
  const html = await page(createApp(context), `/captures/${measuredCapture(context.db, binned, GOOD_ENOUGH)}`);
  expect(html).toContain(", which is in the bin");
  expect(html).not.toContain(`href="/prints/${binned}"`);
});

test("failed captures and failed comparisons are told apart on the overview", async () => {
  const context = emptyCollection();
  const print = keptPrint(context.db, "1978.001");
  enqueueMeasure(context.db, measuredCapture(context.db, print, {}));
  enqueueMeasure(context.db, measuredCapture(context.db, print, {}));
  enqueueCompare(context.db, print, "front");
  for (let piece = 0; piece < 3; piece++) {
    const work = claimWork(context.db, "2026-11-25T10:00:00.000Z", "2026-11-25T10:05:00.000Z");
    failWork(context.db, work?.id ?? 0, "broken", "2026-11-25T10:00:01.000Z");
  }
  expect(await page(createApp(context), "/")).toContain(
    "2 captures could not be measured, and the captures of 1 side of a print could not be compared.",
  );
});

test("the recapture list says the measure, by how much, and what to change", async () => {
  const context = emptyCollection();
  const weak = keptPrint(context.db, "1978.002", { title: "Skaters" });
  measuredCapture(context.db, weak, { ...GOOD_ENOUGH, samplingPpi: 310 }, { fileName: "phone.jpg", method: "phone-camera" });
  chooseMasters(context);
  const html = await page(createApp(context), "/recapture");
  expect(html).toContain("Sampling is 310 ppi where at least 392 ppi is asked, 82 ppi too little.");
  expect(html).toContain("Move the camera closer");
  expect(html).toContain("Best capture falls short: 1");
  expect(html).not.toContain("Without any capture");
  expect(html).toMatch(/caution-mark/);
});

test("the recapture list comes in pages of twenty, counts all of them, and of an empty collection says that nothing is there", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  expect(await page(app, "/recapture")).toContain("There is no print in the collection yet");
  for (let number = 1; number <= 60; number++) keptPrint(context.db, `1978.${String(number).padStart(3, "0")}`);
  const weak = keptPrint(context.db, "1979.001");
  measuredCapture(context.db, weak, { ...GOOD_ENOUGH, samplingPpi: 310 }, { method: "phone-camera" });
  chooseMasters(context);
  const numbers = (html: string) => [...html.matchAll(/class="object-number">(\d{4}\.\d{3})</g)].map((match) => match[1]);
  const first = await page(app, "/recapture");
  expect(numbers(first)).toHaveLength(20);
  expect(numbers(first).at(-1)).toBe("1978.020");
  expect(first).toContain("61 sides of 61 prints have to be captured again. Lines 1 to 20 are shown.");
  expect(first).toContain('href="/recapture?purpose=preservation-master&amp;page=2"');
  const last = await page(app, "/recapture?page=4");
  expect(numbers(last)).toEqual(["1979.001"]);
  expect(last).toContain("Best capture falls short: 1 side");
  expect(first).toContain("Without any capture: 60 sides");
  // the overview counts prints, and as many of them
  expect(await page(app, "/")).toMatch(/Prints to be captured again<\/dt><dd><a href="\/recapture">61</);
  for (const beyond of ["99", "0", "-1", "two"]) expect(numbers(await page(app, `/recapture?page=${beyond}`)).length).toBeGreaterThan(0);
});

test("the inventory file holds exactly the prints that the page was narrowed to, in RFC 4180 form", async () => {
  const context = emptyCollection();
  keptPrint(context.db, "1978.001", { title: 'Weir, "winter"' });
  keptPrint(context.db, "1978.002", { title: "Skaters" });
  const app = createApp(context);
  const html = await page(app, "/inventory?search=weir");
  const href = /href="(\/inventory\.csv[^"]*)"/.exec(html)?.[1]?.replaceAll("&amp;", "&") ?? "";
  const answer = await app.request(href);
  const rows: Record<string, string>[] = parse(await answer.text(), { columns: true });
  expect(rows.map((row) => row.object_number)).toEqual(["1978.001"]);
  expect(rows[0]?.title).toBe('Weir, "winter"');
  expect(answer.headers.get("content-type")).toMatch(/^text\/csv/);
  expect(answer.headers.get("content-disposition")).toMatch(/^attachment; filename="inventory-\d{4}-\d\d-\d\d\.csv"$/);
  const all: unknown[] = parse(await (await app.request("/inventory.csv")).text(), { columns: true });
  expect(all).toHaveLength(2);
});

test("the measuring part asks for itself again only while something is open", async () => {
  const context = emptyCollection();
  const captureId = measuredCapture(context.db, null, {});
  enqueueMeasure(context.db, captureId);
  const app = createApp(context);
  expect(await page(app, "/work")).toContain('hx-trigger="every 2s"');
  await send(app, "/work/cancel");
  expect(workProgress(context.db)).toMatchObject({ waiting: 0, cancelled: 1 });
  const idle = await page(app, "/work");
  expect(idle).not.toContain("hx-trigger");
  expect(idle).toContain("Resume the 1 cancelled");
  await send(app, "/work/resume");
  expect(workProgress(context.db)).toMatchObject({ waiting: 1, cancelled: 0 });
});

test("a page that waited is offered the new measures when nothing is open any more; a fresh page is not", async () => {
  const app = createApp(emptyCollection());
  expect(await page(app, "/work", { "HX-Request": "true" })).toContain("Show the page with the new measures");
  expect(await page(app, "/work")).not.toContain("Show the page with the new measures");
});

test("what failed is listed with its file and the words for the keeper", async () => {
  const context = emptyCollection();
  const captureId = measuredCapture(context.db, null, {}, { fileName: "broken.tif" });
  enqueueMeasure(context.db, captureId);
  const work = claimWork(context.db, "2026-11-25T10:00:00.000Z", "2026-11-25T10:05:00.000Z");
  failWork(context.db, work?.id ?? 0, "The file ends in the middle. Take it in again from where it came.", "2026-11-25T10:00:01.000Z");
  const html = await page(createApp(context), "/work");
  expect(html).toContain("broken.tif");
  expect(html).toContain("The file ends in the middle. Take it in again from where it came.");
});

/** A capture in the tray whose measuring has failed. */
function failedCapture(printId: (db: ReturnType<typeof emptyCollection>["db"]) => number | null = () => null) {
  const context = emptyCollection();
  const captureId = measuredCapture(context.db, printId(context.db), {}, { fileName: "broken.tif" });
  enqueueMeasure(context.db, captureId);
  const work = claimWork(context.db, "2026-11-25T10:00:00.000Z", "2026-11-25T10:05:00.000Z");
  failWork(context.db, work?.id ?? 0, "The file ends in the middle.", "2026-11-25T10:00:01.000Z");
  const state = () => context.db.$client.prepare("select state, attempts from work where capture_id = ?").all(captureId);
  return { context, app: createApp(context), captureId, state };
}

test.each([
  ["the capture's page", (id: number) => `/captures/${id}`, {}, (id: number) => `/captures/${id}?done=measure-asked`],
  ["the tray", () => "/tray", { from: "tray" }, (id: number) => `/tray?done=measure-asked&capture=${id}#capture-${id}`],
  ["the list of what failed", () => "/work", { from: "work" }, () => "/work?done=measure-asked"],
])("what failed is measured again from %s, which is where one is led back to", async (_, shownOn, fields, ledTo) => {
  const { app, captureId, state } = failedCapture();
  const html = await page(app, shownOn(captureId));
  expect(html).toContain("The file ends in the middle.");
  expect(html).toContain(`action="/captures/${captureId}/measure"`);
  const answer = await send(app, `/captures/${captureId}/measure`, fields);
  expect(answer.headers.get("location")).toBe(ledTo(captureId));
  expect(state()).toEqual([{ state: "waiting", attempts: 0 }]);
  expect(await page(app, shownOn(captureId))).not.toContain(`action="/captures/${captureId}/measure"`);
});

test("that a capture was sent to be measured again stands in the history of its print", async () => {
  const { app, captureId } = failedCapture((db) => keptPrint(db, "1978.001"));
  expect(await page(app, "/prints/1")).toContain(`action="/captures/${captureId}/measure"`);
  await send(app, `/captures/${captureId}/measure`);
  expect(await page(app, "/prints/1")).toContain("Capture sent to be measured again.");
});

test("everything that failed is tried again at once, and what is well stays as it is", async () => {
  const { context, app, state } = failedCapture();
  const well = measuredCapture(context.db, null, GOOD_ENOUGH);
  enqueueMeasure(context.db, well);
  const work = claimWork(context.db, "2026-11-25T10:00:00.000Z", "2026-11-25T10:05:00.000Z");
  finishWork(context.db, work as Work, "2026-11-25T10:00:01.000Z");
  expect((await send(app, "/work/retry")).headers.get("location")).toBe("/work?done=work-retried");
  expect(state()).toEqual([{ state: "waiting", attempts: 0 }]);
  expect(workProgress(context.db)).toMatchObject({ waiting: 1, done: 1, failed: 0 });
});

test("a bed that was divided is not measured again", async () => {
  const { context, app, captureId, state } = failedCapture();
  setCaptureDivided(context.db, captureId);
  const answer = await send(app, `/captures/${captureId}/measure`);
  expect(answer.headers.get("location")).toBe(`/captures/${captureId}?done=measure-not-asked`);
  expect(state()).toMatchObject([{ state: "failed" }]);
  expect((await send(app, "/captures/999/measure")).status).toBe(404);
});

test("a set-up is described once and refused at its field when its name is taken", async () => {
  const app = createApp(emptyCollection());
  const fields = { name: "Stand", method: "copy-stand-camera", light: "two lamps at 45°" };
  expect((await send(app, "/set-ups", fields)).status).toBe(303);
  const again = await send(app, "/set-ups", fields);
  const html = await again.text();
  expect(again.status).toBe(422);
  expect(html).toContain("There is already a set-up called Stand.");
  expect(html).toContain("two lamps at 45°");
});

test("a set-up is edited: captures keep naming it, the old words stand in its history, the method of a capture stays", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  await send(app, "/set-ups", { name: "Stand", method: "copy-stand-camera", light: "two lamps" });
  const [setUp] = listSetUps(context.db);
  const printId = keptPrint(context.db, "1978.001");
  const captureId = measuredCapture(context.db, printId, {}, { method: "copy-stand-camera", setUpId: setUp?.id });
  const form = await page(app, `/set-ups/${setUp?.id}/edit`);
  expect(form).toContain("two lamps");
  expect(form).toContain('name="revision" value="1"');
  const fields = { name: "Stand", method: "phone-camera", light: "two lamps at 45°", revision: "1" };
  const answer = await send(app, `/set-ups/${setUp?.id}`, fields);
  expect(answer.headers.get("location")).toBe(`/set-ups?done=set-up-saved#set-up-${setUp?.id}`);
  expect(findCapture(context.db, captureId)).toMatchObject({ setUpId: setUp?.id, method: "copy-stand-camera" });
  expect(listSetUps(context.db)).toMatchObject([{ name: "Stand", method: "phone-camera", light: "two lamps at 45°", revision: 2 }]);
  expect(await page(app, `/set-ups/${setUp?.id}/edit`)).toContain("Light from “two lamps” to “two lamps at 45°”");
  const again = await send(app, `/set-ups/${setUp?.id}`, { ...fields, revision: "2" });
  expect(again.headers.get("location")).toContain("done=set-up-unchanged");
  expect(listSetUps(context.db)).toMatchObject([{ revision: 2 }]);
});

test("two people who edit one set-up: the second sees both texts, and may then save", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  await send(app, "/set-ups", { name: "Stand", method: "copy-stand-camera" });
  await send(app, "/set-ups/1", { name: "Stand", method: "copy-stand-camera", lens: "From the first", revision: "1" });
  const fields = { name: "Stand", method: "copy-stand-camera", lens: "From the second" };
  const answer = await send(app, "/set-ups/1", { ...fields, revision: "1" });
  const html = await answer.text();
  expect(answer.status).toBe(409);
  expect(html).toContain("Somebody else saved this set-up");
  expect(html).toContain('<td class="as-typed">From the first</td>');
  expect(html).toContain('value="From the second"');
  expect(listSetUps(context.db)).toMatchObject([{ lens: "From the first" }]);
  expect((await send(app, "/set-ups/1", { ...fields, revision: "2" })).status).toBe(303);
  expect(listSetUps(context.db)).toMatchObject([{ lens: "From the second", revision: 3 }]);
});

test("a set-up cannot take another's name, but its own in other letters; one that does not exist is not found", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  for (const name of ["Stand", "Bed"]) await send(app, "/set-ups", { name, method: "flatbed-scanner" });
  const taken = await send(app, "/set-ups/2", { name: "stand", method: "flatbed-scanner", revision: "1" });
  expect(taken.status).toBe(422);
  expect(await taken.text()).toContain("There is already a set-up called Stand.");
  expect((await send(app, "/set-ups/1", { name: "STAND", method: "flatbed-scanner", revision: "1" })).status).toBe(303);
  expect(listSetUps(context.db).map(({ name }) => name)).toEqual(["Bed", "STAND"]);
  expect((await app.request("/set-ups/9/edit")).status).toBe(404);
});

test("the inventory page comes in pages of twenty that keep the filter, and its file holds all", async () => {
  const context = emptyCollection();
  for (let number = 1; number <= 45; number++) keptPrint(context.db, `1978.${String(number).padStart(3, "0")}`);
  const app = createApp(context);
  const numbers = (html: string) => [...html.matchAll(/1978\.\d{3}(?=\s*<\/a>)/g)].map(String);
  const second = await page(app, "/inventory?captures=without&page=2");
  expect(numbers(second)).toEqual(Array.from({ length: 20 }, (_, place) => `1978.0${21 + place}`));
  expect(second).toContain("21 to 40 shown");
  expect(second).toContain('href="/inventory?captures=without&amp;page=3"');
  expect(second).toContain('href="/inventory.csv?captures=without"');
  expect(numbers(await page(app, "/inventory?page=99"))).toHaveLength(5);
});

test("prints are narrowed to those to be captured again, in the list, in its form and in the file of the inventory", async () => {
  const context = emptyCollection();
  const [good, weak] = [keptPrint(context.db, "1978.001"), keptPrint(context.db, "1978.002")];
  keptPrint(context.db, "1978.003");
  measuredCapture(context.db, good, GOOD_ENOUGH);
  measuredCapture(context.db, weak, { ...GOOD_ENOUGH, samplingPpi: 200 });
  chooseMasters(context);
  const app = createApp(context);
  const listed = async (query: string) => [...(await page(app, `/prints?${query}`)).matchAll(/1978\.00\d(?=\s*<\/a>)/g)].map(String);
  expect(await listed("recapture=needed")).toEqual(["1978.002", "1978.003"]);
  expect(await listed("recapture=samplingPpi")).toEqual(["1978.002"]);
  const html = await page(app, "/prints?recapture=samplingPpi");
  expect(html).toMatch(/<option value="samplingPpi" selected/);
  expect(html).toContain("Falls short in sampling");
  const inventory = await page(app, "/inventory?recapture=no-capture");
  const href = /href="(\/inventory\.csv[^"]*)"/.exec(inventory)?.[1]?.replaceAll("&amp;", "&") ?? "";
  const rows: Record<string, string>[] = parse(await page(app, href), { columns: true });
  expect(rows).toMatchObject([{ object_number: "1978.003", recapture_needed: "yes", recapture_reasons: "It was never captured." }]);
  expect(rows).toHaveLength(1);
});

test("captures measured by an older version are told on the overview and wait to be measured anew when asked, and only those", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  const [older, newer, away, failed] = [1, 2, 3, 4].map(() => measuredCapture(context.db, printId, GOOD_ENOUGH)) as [
    number,
    number,
    number,
    number,
  ];
  const app = createApp(context);
  expect(await page(app, "/")).not.toContain("/work/measure-older");
  const { measureSets, measures } = schema;
  const setsOf = (ids: readonly number[]) =>
    context.db
      .select({ id: measureSets.id })
      .from(measureSets)
      .where(inArray(measureSets.captureId, [...ids]));
  context.db
    .update(measures)
    .set({ methodVersion: 0 })
    .where(and(eq(measures.name, "samplingPpi"), inArray(measures.setId, setsOf([older, away, failed]))))
    .run();
  putAwayCapture(context, { captureId: away, reason: "It shows another print." });
  enqueueMeasure(context.db, failed);
  const now = context.now();
  failWork(context.db, claimWork(context.db, now, now)?.id ?? 0, "The file is gone.", now);
  expect(await page(app, "/")).toContain("1 capture was measured by an older version of the program.");
  expect((await send(app, "/work/measure-older")).headers.get("location")).toBe("/?done=older-asked");
  const states = measuringOfCaptures(context.db, [older, newer, away, failed]);
  expect([states.get(older)?.state, states.get(newer), states.get(failed)?.state]).toEqual(["waiting", undefined, "failed"]);
  expect(await page(app, "/"), "what waits is not offered again").not.toContain("/work/measure-older");
  expect((await send(app, "/work/measure-older")).headers.get("location")).toBe("/?done=older-none");
});

test("masters chosen by earlier aims are told on the overview and chosen anew when asked, and only those of the rule", async () => {
  const context = emptyCollection();
  const [byRule, byHand] = [keptPrint(context.db, "1978.001"), keptPrint(context.db, "1978.002")];
  measuredCapture(context.db, byRule, GOOD_ENOUGH);
  const chosen = measuredCapture(context.db, byHand, GOOD_ENOUGH);
  chooseMasters(context);
  const app = createApp(context);
  for (const purposeKey of PURPOSE_KEYS)
    overruleMaster(context, { printId: byHand, side: "front", purposeKey, captureId: chosen, reason: "It shows the fold." });
  expect(await page(app, "/")).not.toContain("/masters/renew");
  ensurePurposes(
    context,
    PUBLISHED_AIMS.map((aim) => ({ ...aim, edition: `${aim.edition}, next` })),
  );
  const html = await page(app, "/");
  expect(html).toContain("The masters of 1 print were chosen by an earlier version of the aims, or not yet");
  expect(html).toContain('action="/masters/renew"');
  expect((await send(app, "/masters/renew")).headers.get("location")).toBe("/?done=choices-renewed");
  expect(await page(app, "/")).not.toContain("/masters/renew");
  const [current] = currentAims(context.db);
  expect(listChoicesOfPrint(context.db, byRule)[0]?.aimId).toBe(current?.id);
  expect(listChoicesOfPrint(context.db, byHand)[0]).toMatchObject({ decidedBy: "person", captureId: chosen });
});
