import { expect, test } from "vitest";
import { setUpInput } from "#domain/capture/set-up.ts";
import { historyOf } from "#drizzle/queries/events.ts";
import { findSetUp } from "#drizzle/queries/set-ups.ts";
import { createSetUp } from "#server/actions/create-set-up.ts";
import { createApp } from "#server/app.ts";
import { keptPrint } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const words = (html: string) => html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");
const FIGURES = { sensorWidthMm: "36", sensorHeightMm: "24", sensorWidthPx: "6000", sensorHeightPx: "4000", focalLengthMm: "60" };

function planned() {
  const context = emptyCollection();
  const app = createApp(context);
  const made = createSetUp(context, setUpInput.parse({ name: "Copy stand", method: "copy-stand-camera" }));
  if (!made.ok) throw new Error("The set-up was refused.");
  const get = (query: Record<string, string>) => app.request(`/plan?${new URLSearchParams(query)}`);
  return { context, app, setUpId: made.value.id, get };
}

test("a plan for a size stands in the address and says what it reaches", async () => {
  const { get } = planned();
  const page = words(await (await get({ ...FIGURES, printWidthMm: "88", printHeightMm: "107" })).text());
  // 4000 px over 88 + 2 · 5 mm
  expect(page).toContain("Nothing stands in the way for preservation master. Sampling reaches what is aimed at: 1036 ppi.");
});

test("what stands in the way is told before the sampling, and glass and diffraction are told in numbers", async () => {
  const { get } = planned();
  const lamps = { lampCount: "2", lampElevationDegrees: "80", lampDistanceMm: "300", lampWidthMm: "400" };
  const page = words(
    await (await get({ ...FIGURES, ...lamps, fNumber: "8", glass: "plain", printWidthMm: "88", printHeightMm: "107" })).text(),
  );
  expect(page).toContain("In the way for preservation master: the lamps. Sampling reaches what is aimed at");
  // m = 24 / 98: 2.44 · 0.55 µm · 8 (1 + m) on the sensor, over m on the print
  const spotUm = 2.44 * 0.55 * 8 * (1 + 24 / 98);
  expect(page).toContain(`${spotUm.toFixed(1)} µm across on the sensor, ${(spotUm / 1000 / (24 / 98)).toFixed(3)} mm on the print`);
  // 10° from upright is nearly straight on: 8.2 % for plain glass (Fresnel)
  expect(page).toMatch(/8\.2 % of the lamps(?:'|&#39;) light leaves plain glass like a mirror, 2\.5 % glass with one layer/);
});

test("each figure of a plan stands there with its formula, its result, unit and source", async () => {
  const { get } = planned();
  const page = words(await (await get({ ...FIGURES, printWidthMm: "88", printHeightMm: "107" })).text());
  // 60 (1 + 98 / 24)
  expect(page).toMatch(/How this is worked out .* Print to lens 305 mm f \(1 \+ 1\/m\) thin lens \(OpenStax/);
});

test("without number or size every print on the recapture list is planned, and those of unknown size are named", async () => {
  const { context, get } = planned();
  keptPrint(context.db, "A1", { sheetWidthMm: 88, sheetHeightMm: 107, title: "" });
  keptPrint(context.db, "B1", { sheetWidthMm: 300, sheetHeightMm: 400, title: "" });
  keptPrint(context.db, "C1", { formatId: null, sheetWidthMm: null, sheetHeightMm: null, title: "" });
  const page = words(await (await get(FIGURES)).text());
  expect(page).toContain(
    "2 prints to capture again for preservation master: something stands in the way of 1. In sampling, 1 reaches what is aimed at, 1 falls short.",
  );
  expect(page).toContain("1 print is left out, because nobody has measured it: C1.");
});

test("a list of prints with nothing in their way says so in a plain sentence", async () => {
  const { context, get } = planned();
  keptPrint(context.db, "A1", { sheetWidthMm: 88, sheetHeightMm: 107, title: "" });
  expect(words(await (await get(FIGURES)).text())).toContain(
    "1 print to capture again for preservation master: nothing stands in the way. In sampling, 1 reaches what is aimed at.",
  );
});

test("a cost names its currency, says where nobody wrote one, and begins with that of the set-up", async () => {
  const { app, get } = planned();
  const job = { ...FIGURES, printWidthMm: "88", printHeightMm: "107", minutesPerPrint: "6", minutesToSetUp: "54", pricePerHour: "20" };
  // one hour in all
  expect(words(await (await get({ ...job, price: "5", currency: "chf" })).text())).toContain("25.00 CHF, 25.00 CHF a print");
  expect(words(await (await get({ ...job, price: "5" })).text())).toContain("25.00, 25.00 a print, in a currency that nobody wrote");
  expect((await get({ ...job, currency: "quid" })).status).toBe(422);
  const body = new URLSearchParams({ name: "Priced", method: "copy-stand-camera", priceAmount: "300", priceCurrency: "SEK" });
  const made = await app.request("/set-ups", { method: "POST", body, headers: { Origin: "http://localhost" } });
  expect(made.status).toBe(303);
  expect(await (await get({ setUp: "2" })).text()).toMatch(/name="currency"[^>]*value="SEK"|value="SEK"[^>]*name="currency"/);
});

test("a wrong figure is refused at its field, and everything typed is still there", async () => {
  const { get } = planned();
  const answer = await get({ ...FIGURES, focalLengthMm: "long", printWidthMm: "88" });
  const html = await answer.text();
  expect(answer.status).toBe(422);
  expect(words(html)).toContain("A size needs both its sides.");
  expect(html).toContain('value="long"');
  expect(html).toContain('value="6000"');
});

test("a number that no print has is refused with what to do", async () => {
  const { get } = planned();
  const answer = await get({ ...FIGURES, objectNumber: "Z9" });
  expect(answer.status).toBe(422);
  expect(words(await answer.text())).toContain("There is no print Z9. Look the number up");
});

test("a number that no print has is told together with the other mistakes", async () => {
  const { get } = planned();
  const html = words(await (await get({ ...FIGURES, focalLengthMm: "long", objectNumber: "Z9" })).text());
  expect(html).toContain("There is no print Z9.");
  expect(html).toMatch(/Write the lens.*real focal length/);
});

test("figures are kept with a set-up, stand in its history, and the next plan begins with them", async () => {
  const { context, app, get, setUpId } = planned();
  const body = new URLSearchParams(FIGURES);
  const kept = await app.request(`/set-ups/${setUpId}/figures`, { method: "POST", body, headers: { Origin: "http://localhost" } });
  expect(kept.status).toBe(303);
  expect(findSetUp(context.db, setUpId)?.arrangement?.camera?.focalLengthMm).toBe(60);
  expect(historyOf(context.db, "set-up", setUpId).map(({ verb }) => verb)).toContain("edited");
  expect(await (await get({ setUp: String(setUpId), printWidthMm: "88", printHeightMm: "107" })).text()).toContain('value="6000"');
});

test("figures that make no sense are not kept", async () => {
  const { context, app, setUpId } = planned();
  const body = new URLSearchParams({ ...FIGURES, scannerPpi: "600" });
  const answer = await app.request(`/set-ups/${setUpId}/figures`, { method: "POST", body, headers: { Origin: "http://localhost" } });
  expect(answer.status).toBe(422);
  expect(findSetUp(context.db, setUpId)?.arrangement).toBeNull();
});

test("prints that a caution keeps from the planned way are named with it; nothing on them, they are not", async () => {
  const { context, get } = planned();
  const size = { sheetWidthMm: 88, sheetHeightMm: 107 };
  keptPrint(context.db, "A1", { ...size, processId: "integral-instant-colour", processedOn: null });
  keptPrint(context.db, "B1", { ...size, processId: "chromogenic" });
  const shown = async (figures: Record<string, string>) => words(await (await get(figures)).text());
  const stop = /Stop: 1 print must not be captured this way A1 : Fresh integral print: still wet inside/;
  expect(await shown({ scannerPpi: "600" })).toMatch(stop);
  expect(await shown({ ...FIGURES, glass: "plain" })).toMatch(stop);
  expect(await shown({ ...FIGURES, glass: "none" })).not.toContain("must not be captured this way");
  expect(await shown({ scannerPpi: "600", objectNumber: "B1" })).not.toContain("must not be captured this way");
  expect(await shown({ scannerPpi: "600", objectNumber: "A1" })).toMatch(stop);
});

test("what was asked for goes on when the figures of a set-up are taken", async () => {
  const { context, get, setUpId } = planned();
  keptPrint(context.db, "A 1", { sheetWidthMm: 88, sheetHeightMm: 107 });
  const html = await (await get({ objectNumber: "A 1", purpose: "screen" })).text();
  expect(html).toContain(`href="/plan?objectNumber=A+1&amp;purpose=screen&amp;setUp=${setUpId}"`);
});

test("with no print to capture again the plan says what to do, and counts no files, time or cost", async () => {
  const { get } = planned();
  const shown = words(await (await get(FIGURES)).text());
  expect(shown).toMatch(/Nothing to plan: .*Write an object number or a size below/);
  expect(shown).not.toContain("0 bytes");
});
