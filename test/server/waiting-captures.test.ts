import type { Hono } from "hono";
import { expect, test } from "vitest";
import { findCapture, listCapturesOfPrint, listTray } from "#drizzle/queries/captures.ts";
import { findPrintByNumber } from "#drizzle/queries/prints.ts";
import { createApp } from "#server/app.ts";
import { keptPrint, measuredCapture } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";

const send = (app: Hono, path: string, fields: Record<string, string>) =>
  app.request(path, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: new URLSearchParams(fields) });

const text = async (app: Hono, path: string) => (await app.request(path)).text();

function trayOf(...fileNames: string[]) {
  const context = emptyCollection();
  const ids = fileNames.map((fileName) => measuredCapture(context.db, null, {}, { fileName }));
  const id = (place: number) => ids[place] ?? 0;
  return { context, app: createApp(context), id };
}

test("captured first and catalogued afterwards: the new print takes the number and side from the name, its capture, and is offered the others", async () => {
  const { context, app, id } = trayOf("1884.001.01_back.jpg", "1884.001.01_front.jpg", "1884.001.012.jpg");
  const tray = await text(app, "/tray");
  expect(tray).toContain("No print has this number yet.");
  expect(tray).toContain(`href="/prints/new?capture=${id(0)}"`);

  const form = await text(app, `/prints/new?capture=${id(0)}`);
  expect(form).toContain('value="1884.001.01"');
  expect(form).toContain(`/captures/${id(0)}/view.jpg`);
  expect(form).toContain(`name="capture" value="${id(0)}"`);
  expect(form).toContain('<option value="back" selected="">');

  const saved = await send(app, "/prints", { objectNumber: "1884.001.01", capture: String(id(0)), side: "back" });
  const printId = findPrintByNumber(context.db, "1884.001.01")?.id ?? 0;
  expect(saved.headers.get("location")).toBe(`/prints/${printId}?done=print-created-with-capture`);
  expect(findCapture(context.db, id(0))).toMatchObject({ printId, side: "back" });

  const page = await text(app, `/prints/${printId}`);
  expect(page).toContain("In the tray: 1 capture that seems to be of this print");
  expect(page).toContain(`name="side${id(1)}"`);
  expect(page).not.toContain(`name="side${id(2)}"`);
  const assigned = await send(app, "/tray/together", { print: "1884.001.01", from: "print", [`side${id(1)}`]: "front" });
  expect(assigned.headers.get("location")).toBe(`/prints/${printId}?done=captures-assigned`);
  expect(listCapturesOfPrint(context.db, printId).map((capture) => capture.id)).toEqual([id(1), id(0)]);
  expect(await text(app, `/prints/${printId}`)).not.toContain("In the tray:");
});

test("a new print that is refused keeps its capture, and one whose capture was sorted meanwhile is saved and says so", async () => {
  const { context, app, id } = trayOf("scan.jpg");
  const refused = await send(app, "/prints", { objectNumber: "", capture: String(id(0)), side: "front" });
  expect(refused.status).toBe(422);
  expect(await refused.text()).toContain(`/captures/${id(0)}/view.jpg`);
  const other = keptPrint(context.db, "1978.001");
  await send(app, `/captures/${id(0)}/print`, { print: "1978.001", side: "front" });
  const saved = await send(app, "/prints", { objectNumber: "1978.002", capture: String(id(0)), side: "front" });
  expect(saved.headers.get("location")).toMatch(/done=print-created-alone$/);
  expect(findCapture(context.db, id(0))?.printId).toBe(other);
});

test("captures of one number are assigned together, each with its side, and one that stays is left alone", async () => {
  const { context, app, id } = trayOf("1978.001_a.jpg", "holiday.jpg", "1978.001_verso.jpg", "1978.001_b.jpg");
  const printId = keptPrint(context.db, "1978.001");
  const tray = await text(app, "/tray");
  expect(tray).toContain("3 captures of");
  expect(tray).toMatch(new RegExp(`name="side${id(2)}"[^>]*><option value="front">Front</option><option value="back" selected="">`));
  const sides = { [`side${id(0)}`]: "front", [`side${id(2)}`]: "back", [`side${id(3)}`]: "" };
  const answer = await send(app, "/tray/together", { print: "1978.001", ...sides });
  expect(answer.headers.get("location")).toBe("/tray?done=captures-assigned");
  expect(findCapture(context.db, id(2))).toMatchObject({ printId, side: "back" });
  expect(listTray(context.db).map((capture) => capture.id)).toEqual([id(1), id(3)]);
});

test("a wrong number refuses all of them, says so at its field, and keeps what was chosen", async () => {
  const { context, app, id } = trayOf("1978.001_a.jpg", "1978.001_b.jpg");
  const answer = await send(app, "/tray/together", { print: "1978.999", [`side${id(0)}`]: "back", [`side${id(1)}`]: "" });
  const html = await answer.text();
  expect(answer.status).toBe(422);
  expect(html).toContain("There is no print with the number 1978.999.");
  expect(html).toContain('value="1978.999"');
  expect(html).toContain('<option value="" selected="">Leave it in the tray</option>');
  expect(html).toContain(`href="/prints/new?capture=${id(0)}&amp;objectNumber=1978.999"`);
  expect(listTray(context.db)).toHaveLength(2);
});

test("a full tray is paged, and the link to a capture finds the page it is on", async () => {
  const { app, id } = trayOf(...Array.from({ length: 30 }, (_, index) => `holiday-${index}.jpg`));
  const first = await text(app, "/tray");
  expect(first).toContain("30 captures wait");
  expect(first.match(/class="card tray-item"/g)).toHaveLength(12);
  expect(first).toContain('href="/tray?page=3"');
  expect(await text(app, `/tray?capture=${id(29)}`)).toContain(`id="capture-${id(29)}"`);
  expect(await text(app, "/tray?page=99")).toContain(`id="capture-${id(29)}"`);
});
