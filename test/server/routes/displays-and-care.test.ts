import type { Hono } from "hono";
import { expect, test } from "vitest";
import { insertClimateImport, insertReading } from "#drizzle/queries/climate.ts";
import { displaysOfPrint } from "#drizzle/queries/displays.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import { insertPrint } from "#drizzle/queries/prints.ts";
import { createApp } from "#server/app.ts";
import { emptyCollection } from "../../fixtures/collection.ts";
import { printValues } from "../../fixtures/prints.ts";

const NOW = "2026-06-01T12:00:00.000Z";

function collection() {
  const context = { ...emptyCollection(), now: () => NOW };
  const placeId = insertPlace(context.db, { parentId: null, kind: "room", name: "Study" });
  insertPrint(context.db, printValues("1978.1", { processId: "gelatin-silver", placeId, significance: 2 }), NOW);
  insertPrint(context.db, printValues("1978.2", { title: "=sum", processId: "chromogenic", significance: 5 }), NOW);
  return { context, app: createApp(context), placeId };
}

const send = (app: Hono, path: string, fields: Record<string, string> = {}) =>
  app.request(path, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: new URLSearchParams(fields) });
const page = async (app: Hono, path: string) => (await app.request(path)).text();

const DAYS = { startsOn: "2026-05-01", endsOn: "", lux: "100", hoursPerDay: "10", glazing: "glass", note: "" };

test("days on display add up on the print's page and in the log, and can be ended and taken out", async () => {
  const { context, app } = collection();
  expect(await page(app, "/prints/1")).toContain("No days on display are logged.");
  expect((await send(app, "/prints/1/displays", DAYS)).status).toBe(303);
  // 1 May to 1 June are 32 days of 1000 lux hours
  expect(await page(app, "/prints/1")).toContain("32,000 lux hours in the last 365 days, 11 %");
  expect(await page(app, "/displays")).toContain("on display");
  await send(app, "/prints/1/displays/1/end");
  expect(displaysOfPrint(context.db, 1)[0]?.endsOn).toBe("2026-06-01");
  expect((await send(app, "/prints/2/displays/1/take-back")).status).toBe(404);
  await send(app, "/prints/1/displays/1/take-back");
  expect(displaysOfPrint(context.db, 1)).toEqual([]);
  expect(await page(app, "/prints/1")).toContain("Taken out of the display log: on display from 2026-05-01 to 2026-06-01");
});

test("a display that cannot be is refused with what was typed", async () => {
  const { app } = collection();
  const refused = await send(app, "/prints/1/displays", { ...DAYS, lux: "bright <b>" });
  expect(refused.status).toBe(422);
  const html = await refused.text();
  expect(html).toContain("Write the light on the print in lux");
  expect(html).toContain('value="bright &lt;b&gt;"');
});

test("the list of care shows each factor, names what is not known, filters and comes as CSV", async () => {
  const { context, app, placeId } = collection();
  const importId = insertClimateImport(context.db, { placeId, readingCount: 24 });
  for (let hour = 0; hour < 24; hour++)
    insertReading(context.db, placeId, importId, {
      atSeconds: 1_780_000_000 + hour * 3600,
      temperatureCentiC: 3000,
      humidityCentiPercent: 4000,
    });
  const html = await page(app, "/care");
  // 2 (never surveyed) x 2 (never surveyed) x 5 x 2 (place not known) before 2 x 2 x 2 x 2
  expect(html.indexOf("1978.2")).toBeLessThan(html.indexOf("1978.1<"));
  expect(html).toContain("place not known");
  expect(await page(app, "/care?process=gelatin-silver")).not.toContain("1978.2");
  const csv = await page(app, "/care.csv?spreadsheet=yes");
  const lines = csv.trimEnd().split("\r\n");
  expect(lines[1]).toMatch(/^1978\.2,'=sum,Chromogenic print,,40,5,180,/);
  expect(lines[1]).toMatch(/condition activity climate$/);
  // one day of a whole year is known, and it was bad: at least some of the time, at most all of it
  expect(lines[2]).toMatch(
    /^1978\.1,,"Gelatin silver print, base not known",Study,16,2,72,.*outside its limit under 1 % of the time, no readings over 99 % of it/,
  );
});

test("a print's page says whether its place keeps within the limit of its process, with the source, and what is not known", async () => {
  const { context, app, placeId } = collection();
  const shown = async (printId: number) => (await page(app, `/prints/${printId}`)).replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");
  expect(await shown(1)).toContain("What climate it lives in is not told: no climate readings.");
  expect(await shown(2)).toContain("What climate it lives in is not told: place not known.");
  const days = 365;
  const importId = insertClimateImport(context.db, { placeId, readingCount: days * 24 });
  const end = 1_780_000_000;
  context.db.transaction((tx) => {
    for (let hour = 0; hour < days * 24; hour++) {
      // half the time too warm for a gelatin silver print, which is to be kept at most at 18 °C
      const temperatureCentiC = hour % 2 === 0 ? 1600 : 2400;
      insertReading(tx, placeId, importId, { atSeconds: end - hour * 3600, temperatureCentiC, humidityCentiPercent: 4000 });
    }
  });
  const html = await page(app, "/prints/1");
  expect(html).toMatch(/notice notice-warning[^>]*><p>In the last 365 days of readings its place was outside its limit 50 % of the time/);
  expect(html).toContain("at most 18 °C at 30 to 50 %");
  expect(html).toContain(`/places/${placeId}/climate`);
});
