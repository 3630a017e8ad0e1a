import { expect, test } from "vitest";
import { findCapture, listCapturesOfPrint } from "#drizzle/queries/captures.ts";
import { historyOf } from "#drizzle/queries/events.ts";
import { createApp } from "#server/app.ts";
import { keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const words = (html: string) => html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");

test("a scan whose file does not say when it was made gets its day from a person, who may correct it and take it out again", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  const old = measuredCapture(context.db, printId, {}, { capturedAt: null, fileName: "old.tif" });
  const recent = measuredCapture(context.db, printId, {}, { capturedAt: "2026-05-01T10:00:00", fileName: "recent.tif" });
  const app = createApp(context);
  const save = (fields: Record<string, string>) =>
    app.request(`/captures/${old}`, {
      method: "POST",
      headers: { "Sec-Fetch-Site": "same-origin" },
      body: new URLSearchParams({ print: "1978.001", side: "front", method: "", setUp: "", ...fields }),
    });

  const refused = await save({ saidDay: "31.2.2009" });
  expect(refused.status).toBe(422);
  const again = await refused.text();
  expect(again).toContain("Write the day as year-month-day, such as 2009-05-31, or leave it empty.");
  expect(again).toContain('value="31.2.2009"');

  const both = await (await save({ print: "9999.9", saidDay: "31.2.2009" })).text();
  for (const said of ["There is no print with the number 9999.9.", "Write the day as year-month-day"]) expect(both).toContain(said);

  expect((await save({ saidDay: "2009-05-31" })).status).toBe(303);
  expect(findCapture(context.db, old)).toMatchObject({ saidDay: "2009-05-31", original: { capturedAt: "2009-05-31" } });
  const page = await (await app.request(`/captures/${old}`)).text();
  expect(words(page)).toMatch(/Captured 2009-05-31 , as a person wrote/);
  expect(page).toContain('value="2009-05-31"');
  const change = await (await app.request(`/prints/${printId}/change`)).text();
  expect(change).toMatch(new RegExp(`<option value="${old}" selected[^>]*>[^<]*31 May 2009.*<option value="${recent}" selected`, "s"));
  expect(historyOf(context.db, "capture", old)[0]?.detail).toMatchObject({ from: { saidDay: null }, to: { saidDay: "2009-05-31" } });

  expect((await save({ saidDay: "" })).status).toBe(303);
  expect(listCapturesOfPrint(context.db, printId).find(({ id }) => id === old)?.original.capturedAt).toBeNull();
});
