import type { Hono } from "hono";
import { expect, test } from "vitest";
import { insertPlace } from "#drizzle/queries/places.ts";
import { listWorkSheets, rowsOfWorkSheet } from "#drizzle/queries/work-sheets.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { createApp } from "#server/app.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const send = (app: Hono, path: string, fields: Record<string, string>) =>
  app.request(path, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: new URLSearchParams(fields) });
const words = (html: string) => html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");

function aShelf() {
  const context = emptyCollection();
  const tin = insertPlace(context.db, { parentId: null, kind: "box", name: "Tin & co" });
  const poor = keptPrint(context.db, "1978.001", { placeId: tin, title: "On the <pier>", processId: "integral-instant-colour" });
  measuredCapture(context.db, poor, { ...GOOD_ENOUGH, samplingPpi: 300 }, { fileName: "stand.tif", method: "copy-stand-camera" });
  chooseMasters(context);
  const app = createApp(context);
  const get = async (path: string) => (await app.request(path)).text();
  const row = () => {
    const [sheet] = listWorkSheets(context.db);
    const [first] = sheet ? rowsOfWorkSheet(context.db, sheet.id) : [];
    if (!sheet || !first) throw new Error("no row");
    return { sheet, row: first, at: `/work-sheets/${sheet.id}/rows/${first.id}` };
  };
  return { context, app, poor, tin, get, row };
}

test("the recapture list leads to a sheet, which names box, set-up, cautions before the print, reason, numbers and each factor", async () => {
  const { app, get, row } = aShelf();
  expect(await get("/recapture")).toContain('href="/work-sheets?purpose=preservation-master"');
  const made = await send(app, "/work-sheets", { purpose: "preservation-master" });
  expect(made.status).toBe(303);
  const html = await get(made.headers.get("location") ?? "");
  const text = words(html);
  expect(text).toContain("Tin &amp; co");
  expect(text).toContain("Camera on copy stand");
  expect(text).toContain("Sampling is 300 ppi where at least 392 ppi is asked, 92 ppi too little.");
  expect(text).toContain("Bring the lens nearer, but not nearer than 77 % of its distance from the print");
  expect(text).toMatch(/Priority 24, \d+ to \d+ by what is not known: need 1 × care 8 × significance 3/);
  expect(html).toContain("On the &lt;pier&gt;");
  const { row: first } = row();
  const part = html.slice(html.indexOf(`id="row-${first.id}"`));
  expect(part.indexOf("Do not cut, peel or open")).toBeGreaterThan(0);
  expect(part.indexOf("Do not cut, peel or open")).toBeLessThan(part.indexOf("1978.001"));
  expect(words(await get("/work-sheets"))).toContain("0 of 1 side done");
});

test("pictures come as the sheet is scrolled to them, and what it had no room for is told", async () => {
  const { app, context, get } = aShelf();
  const one = await send(app, "/work-sheets", {});
  expect(await get(one.headers.get("location") ?? "")).toMatch(/<img src="\/captures\/\d+\/view\.jpg"[^>]*loading="lazy"/);
  for (const number of ["1979.001", "1979.002", "1979.003"]) keptPrint(context.db, number);
  const full = await send(app, "/work-sheets", { most: "1" });
  expect(words(await get(full.headers.get("location") ?? ""))).toContain("2 sides that are less urgent were left out");
});

test("a row is ticked and unticked by plain forms that lead back to it", async () => {
  const { app, get, row } = aShelf();
  await send(app, "/work-sheets", {});
  const { sheet, row: first, at } = row();
  const ticked = await send(app, at, { step: "tick" });
  expect(ticked.headers.get("location")).toBe(`/work-sheets/${sheet.id}#row-${first.id}`);
  expect(words(await get(`/work-sheets/${sheet.id}`))).toContain("1 ticked off at the stand");
  expect(row().row.state).toBe("ticked");
  await send(app, at, { step: "untick" });
  expect(row().row.state).toBe("open");
});

test("good enough asks for a reason and keeps what was typed; then it stands at the foot of the list until it is asked again", async () => {
  const { app, get, row } = aShelf();
  await send(app, "/work-sheets", {});
  const { at } = row();
  const refused = await send(app, at, { step: "good-enough", reason: " " });
  expect(refused.status).toBe(422);
  expect(words(await refused.text())).toContain("Say why, so that the next keeper understands.");
  const long = "x".repeat(1001);
  expect(await (await send(app, at, { step: "good-enough", reason: long })).text()).toContain(long);
  expect(row().row.state).toBe("open");

  expect((await send(app, at, { step: "good-enough", reason: "The negative was scanned" })).status).toBe(303);
  expect(row().row.state).toBe("let-go");
  // the reason stands in the row, and is taken back there
  const sheetPage = `/work-sheets/${row().sheet.id}`;
  expect(words(await get(sheetPage))).toMatch(/Good enough: not asked for again\. “The negative was scanned”/);
  expect((await send(app, at, { step: "ask-again" })).status).toBe(303);
  expect(row().row.state).toBe("open");
  expect(words(await get(sheetPage))).not.toContain("The negative was scanned");
  expect((await send(app, at, { step: "ask-again" })).status).toBe(422);
  await send(app, at, { step: "good-enough", reason: "The negative was scanned" });
  const list = await get("/recapture");
  expect(words(list)).toContain("Nothing has to be captured again");
  expect(words(list)).toContain("“The negative was scanned”");
  const again = /action="(\/recapture\/exemptions\/\d+\/ask-again)"/.exec(list)?.[1] ?? "";
  expect((await send(app, again, { purpose: "preservation-master" })).status).toBe(303);
  expect(row().row.state).toBe("open");
  expect(words(await get("/recapture"))).toContain("1 side of 1 print has to be captured again.");
  expect((await send(app, "/recapture/exemptions/999/ask-again", {})).status).toBe(404);
});

test("from the list it is said of one line, and a refusal opens that line again", async () => {
  const { app, get, poor } = aShelf();
  const line = { print: String(poor), side: "front", purpose: "preservation-master", page: "1" };
  const refused = await send(app, "/recapture/good-enough", { ...line, reason: "" });
  expect(refused.status).toBe(422);
  const html = await refused.text();
  expect(html).toMatch(/<details class="good-enough" open/);
  expect(html).toContain(`href="#line-${poor}-front-reason"`);
  expect(html).toContain(`id="line-${poor}-front-reason"`);
  expect((await send(app, "/recapture/good-enough", { ...line, reason: "It will do" })).headers.get("location")).toBe(
    "/recapture?purpose=preservation-master&done=good-enough#good-enough",
  );
  expect(words(await get(`/prints/${poor}`))).toContain("stand.tif is good enough for preservation master. Reason given: It will do");
});

test("a side that is not asked for any more is refused at the top of the page, with the reason that was typed", async () => {
  const { app, poor, row } = aShelf();
  await send(app, "/work-sheets", {});
  const { at } = row();
  expect((await send(app, at, { step: "good-enough", reason: "The negative was scanned" })).status).toBe(303);
  const line = { print: String(poor), side: "front", purpose: "preservation-master", page: "1" };
  for (const [path, fields] of [
    [at, { step: "good-enough" }],
    ["/recapture/good-enough", line],
  ] as const) {
    const answer = await send(app, path, { ...fields, reason: "Lent <out> & sound" });
    expect(answer.status).toBe(422);
    const html = await answer.text();
    expect(html.slice(html.indexOf('role="alert"'))).toContain("This side is not asked to be captured again.");
    expect(html).toContain("“Lent &lt;out&gt; &amp; sound”");
  }
});

test("a refusal of a line that is there is told at the top as well as on the line", async () => {
  const { app, poor } = aShelf();
  await send(app, "/work-sheets", {});
  const line = { print: String(poor), side: "front", purpose: "preservation-master", page: "1", reason: " " };
  const html = await (await send(app, "/recapture/good-enough", line)).text();
  expect(html).toMatch(/role="alert"[\s\S]*Say why, so that the next keeper understands\.[\s\S]*<table/);
});

test("a row that is gone meanwhile is refused, and the reason typed for it stays in sight", async () => {
  const { app, row } = aShelf();
  await send(app, "/work-sheets", {});
  const gone = `/work-sheets/${row().sheet.id}/rows/999`;
  const answer = await send(app, gone, { step: "good-enough", reason: "The negative was scanned" });
  expect(answer.status).toBe(422);
  const html = await answer.text();
  expect(html).toContain("This row is not on the work sheet any more.");
  expect(html).toContain("“The negative was scanned”");
  expect((await send(app, gone, { step: "tick" })).status).toBe(422);
});

test("what is typed wrongly and a sheet with nothing on it are refused with the form as it was", async () => {
  const { app, context } = aShelf();
  const wrong = await send(app, "/work-sheets", { most: "many", name: "Monday" });
  expect(wrong.status).toBe(422);
  const html = await wrong.text();
  expect(words(html)).toContain("Write how many rows at most");
  expect(html).toContain('value="Monday"');
  const nothing = await send(app, "/work-sheets", { why: "no-capture" });
  expect(nothing.status).toBe(422);
  expect(words(await nothing.text())).toContain("Nothing is to be captured again there.");
  expect(listWorkSheets(context.db)).toEqual([]);
  for (const path of ["/work-sheets/9", "/work-sheets/9/rows/1"]) expect((await app.request(path)).status).toBe(404);
  expect((await send(app, "/work-sheets/9/rows/1", { step: "tick" })).status).toBe(404);
});

test("a sheet whose rows are done says by which file", async () => {
  const { app, context, poor, get, row } = aShelf();
  await send(app, "/work-sheets", {});
  measuredCapture(context.db, poor, GOOD_ENOUGH, { fileName: "again.tif" });
  chooseMasters(context);
  const text = words(await get(`/work-sheets/${row().sheet.id}`));
  expect(text).toContain("1 of 1 side done");
  expect(text).toContain("again.tif meets the aim.");
  expect(await get(`/work-sheets/${row().sheet.id}`)).not.toContain("view.jpg");
});

test("a finished sheet is put away and found again; one with work left is not, and one whose row opens again comes back into sight", async () => {
  const { app, get, row } = aShelf();
  await send(app, "/work-sheets", { name: "Tin of the pier" });
  const { at, sheet } = row();
  const page = `/work-sheets/${sheet.id}`;
  expect(await get(page)).not.toContain("put this sheet away");
  const refused = await send(app, `${page}/put-away`, { step: "put-away" });
  expect(refused.status).toBe(422);
  expect(words(await refused.text())).toContain("1 of its rows is not done yet, so the sheet was not put away.");

  await send(app, at, { step: "good-enough", reason: "It will do" });
  expect(await get(page)).toContain("All done: put this sheet away");
  const put = await send(app, `${page}/put-away`, { step: "put-away" });
  expect(put.headers.get("location")).toBe("/work-sheets?done=work-sheet-put-away");
  const listed = async () => words(await get("/work-sheets"));
  expect(await listed()).toMatch(/Put away: 1 work sheet Tin of the pier/);
  await send(app, at, { step: "ask-again" });
  expect(await listed()).not.toContain("Put away:");
  await send(app, at, { step: "good-enough", reason: "It will do" });
  expect(await listed()).toContain("Put away: 1 work sheet");
  await send(app, `${page}/put-away`, { step: "take-out" });
  expect(await listed()).not.toContain("Put away:");
  expect((await send(app, "/work-sheets/999/put-away", {})).status).toBe(404);
});
