import { readdirSync } from "node:fs";
import type { Hono } from "hono";
import { expect, test } from "vitest";
import { readingSpan } from "#drizzle/queries/climate.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import { createApp } from "#server/app.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const HEADERS = { "Sec-Fetch-Site": "same-origin" };
const send = (app: Hono, path: string, fields: Record<string, string> = {}) =>
  app.request(path, { method: "POST", headers: HEADERS, body: new URLSearchParams(fields) });
const page = async (app: Hono, path: string) => (await app.request(path)).text();

function upload(app: Hono, text: string | Uint8Array<ArrayBuffer>) {
  const body = new FormData();
  body.set("file", new File([text], "store <1>.csv"));
  return app.request("/places/1/climate/files", { method: "POST", headers: HEADERS, body });
}

function room() {
  const context = emptyCollection();
  insertPlace(context.db, { parentId: null, kind: "room", name: "Study" });
  insertPlace(context.db, { parentId: 1, kind: "box", name: "Box 4" });
  return { context, app: createApp(context) };
}

const CSV = `Logger 7\nDate;Temp °C;RH %\n${Array.from({ length: 300 }, (_, i) => `${String(1 + Math.floor(i / 24)).padStart(2, "0")}.05.2026 ${String(i % 24).padStart(2, "0")}:00;19,5;55,0`).join("\n")}\n`;

test("a file is shown by its first rows, read as said, and its readings are on the page of the place", async () => {
  const { context, app } = room();
  const sent = await upload(app, CSV);
  expect(sent.status).toBe(303);
  const address = sent.headers.get("location") ?? "";
  const asked = await page(app, address);
  expect(asked).toContain("store &lt;1&gt;.csv");
  expect(asked).toContain("01.05.2026 00:00");
  expect(asked).toMatch(/<option value="semicolon" selected/);
  expect(asked).toMatch(/<option value="comma" selected/);
  const mapping = {
    delimiter: "semicolon",
    firstRow: "3",
    timeColumn: "1",
    clockColumn: "",
    dateOrder: "day-month-year",
    timeZone: "UTC",
    temperatureColumn: "2",
    temperatureUnit: "celsius",
    humidityColumn: "3",
    decimalSign: "comma",
  };
  const previewed = await page(app, `${address}?${new URLSearchParams(mapping)}`);
  expect(previewed).toContain("1 May 2026 at 00:00 UTC, 19.5 °C, 55.0 %.");
  const refused = await send(app, `${address}/import`, { ...mapping, timeColumn: "" });
  expect(refused.status).toBe(422);
  expect(await refused.text()).toContain("Choose the column that says when.");
  expect(readingSpan(context.db, 1)).toBeNull();
  expect((await send(app, `${address}/import`, mapping)).headers.get("location")).toBe(`${address}/progress`);
  await expect.poll(() => page(app, `${address}/progress`)).toContain("300 readings");
  const html = await page(app, "/places/1/climate");
  expect(html).toContain("300 readings");
  expect(html).toContain("<svg");
  expect(html).toContain("Not known: It takes all twelve months");
  expect(await page(app, "/places/2/climate")).toContain("tells of the prints here");
});

test("a file that is no text, an empty one and none at all are refused in words", async () => {
  const { app } = room();
  const sent = await upload(app, new Uint8Array([0x50, 0x4b, 3, 4, 0, 0, 0]));
  const refused = await app.request(sent.headers.get("location") ?? "");
  expect(refused.status).toBe(422);
  expect(await refused.text()).toContain("This is no text file.");
  const none = await app.request("/places/1/climate/files", { method: "POST", headers: HEADERS, body: new FormData() });
  expect(none.status).toBe(422);
  expect(await none.text()).toContain("No file was chosen.");
});

test("a file that was left, or that another place has, is not here", async () => {
  const { app } = room();
  const address = (await upload(app, CSV)).headers.get("location") ?? "";
  expect((await app.request(address.replace("places/1", "places/2"))).status).toBe(422);
  expect((await send(app, `${address}/stop`)).headers.get("location")).toBe("/places/1/climate");
  expect(await page(app, address)).toContain("That file is not here any more");
});

test("files that were sent and left make way for later ones, so that they cannot fill the disk", async () => {
  const { context, app } = room();
  const addresses: string[] = [];
  for (let sent = 0; sent < 10; sent++) addresses.push((await upload(app, CSV)).headers.get("location") ?? "");
  expect(readdirSync(context.folder.incoming)).toHaveLength(8);
  expect((await app.request(addresses[0] ?? "")).status).toBe(422);
  expect((await app.request(addresses[9] ?? "")).status).toBe(200);
});

test("a typed reading is kept with its time zone, and can be taken out again", async () => {
  const { context, app } = room();
  const fields = { at: "2026-05-01 12:00", timeZone: "+02:00", temperature: "19,5", humidity: "" };
  expect((await send(app, "/places/1/climate/readings", fields)).status).toBe(303);
  expect(readingSpan(context.db, 1)?.firstSeconds).toBe(Date.parse("2026-05-01T10:00:00Z") / 1000);
  const wrong = await send(app, "/places/1/climate/readings", { ...fields, temperature: "warm", humidity: "" });
  expect(wrong.status).toBe(422);
  expect(await wrong.text()).toContain('value="warm"');
  await send(app, "/places/1/climate/imports/1/take-back");
  expect(readingSpan(context.db, 1)).toBeNull();
});
