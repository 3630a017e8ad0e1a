import type { Hono } from "hono";
import { expect, test } from "vitest";
import { MEASURES } from "#domain/measure/catalogue.ts";
import { listChoicesOfPrint } from "#drizzle/queries/choices.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { createApp } from "#server/app.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture, reread } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const send = (app: Hono, path: string, fields: Record<string, string>) =>
  app.request(path, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: new URLSearchParams(fields) });

/** One integral print with a good copy-stand TIFF and a phone JPEG that falls short. */
function judgedPrint() {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001", { title: "Weir <in> winter", processId: "integral-instant-colour" });
  const stand = measuredCapture(context.db, printId, GOOD_ENOUGH, { fileName: "stand.tif", method: "copy-stand-camera" });
  const phone = measuredCapture(
    context.db,
    printId,
    { ...GOOD_ENOUGH, lossless: 0, effectiveBitDepth: 8, samplingPpi: 310, glareAreaPercent: "there is no other capture to compare with" },
    { fileName: "phone.jpg", method: "phone-camera" },
  );
  chooseMasters(context);
  const app = createApp(context);
  const page = async (query = "") => (await app.request(`/prints/${printId}${query}`)).text();
  return { context, app, printId, stand, phone, page };
}

/** What a reader sees: the text alone, each run of blanks as one. */
const words = (html: string) =>
  html
    .replace(/<[^>]+>/g, " ")
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replace(/\s+/g, " ");

test("the page names the master, the runner-up and one sentence of why", async () => {
  const { context, printId, page } = judgedPrint();
  const choice = listChoicesOfPrint(context.db, printId)[0];
  const html = await page();
  expect(choice?.sentence.length).toBeGreaterThan(20);
  expect(words(html)).toContain(words(choice?.sentence ?? ""));
  expect(html).toContain('id="master-front-preservation-master"');
  expect(words(html)).toContain("Master: preservation master, reproduction, screen");
});

test("a choice says how sure it is and what would turn it, and asks a person where it is too close to call", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  measuredCapture(context.db, printId, { ...GOOD_ENOUGH, samplingPpi: 500 }, { fileName: "one.tif" });
  measuredCapture(context.db, printId, { ...GOOD_ENOUGH, samplingPpi: 500 }, { fileName: "other.tif" });
  chooseMasters(context);
  const page = async () => words(await (await createApp(context).request(`/prints/${printId}`)).text());
  // alike in everything: even chances, and a pixel more would turn it
  expect(await page()).toContain("it stays the master in only 50 of 100 chances: a person should look.");
  measuredCapture(context.db, printId, { ...GOOD_ENOUGH, samplingPpi: 590 }, { fileName: "third.tif" });
  chooseMasters(context);
  expect(await page()).toContain("Sure: no reading is so doubtful that it could change this.");
  expect(await page()).toMatch(/It would turn if \S.* instead of /);
});

test("earlier choices are told once each: what was chosen again in the same words is no choice of its own", async () => {
  const { context, printId, stand, page } = judgedPrint();
  const card = async () => words(/id="master-front-preservation-master".*?<\/section>/s.exec(await page())?.[0] ?? "");
  expect(await card()).toContain("stand.tif is the only one of 2 captures");
  expect(await card()).not.toContain("Earlier choices");
  reread(context.db, stand, { ...GOOD_ENOUGH, samplingPpi: 460 });
  chooseMasters(context);
  // the rule keeps its master for the same reason: the numbers alone moved
  expect(context.db.$client.prepare("select count(*) from choices where purpose_id = 1").pluck().get()).toBe(2);
  expect(await card()).not.toContain("Earlier choices");
  measuredCapture(context.db, printId, { ...GOOD_ENOUGH, samplingPpi: 620 }, { fileName: "again.tif" });
  chooseMasters(context);
  expect(await card()).toMatch(/Earlier choices \(1\) stand\.tif stand\.tif is the only one of 2 captures/);
});

test("cautions stand before the record, with level word, source and the line that defers", async () => {
  const { page } = judgedPrint();
  const text = words(await page());
  expect(text).toMatch(/(Danger|Warning|Caution|Notice): /);
  expect(text.search(/(Danger|Warning|Caution|Notice): /)).toBeLessThan(text.indexOf("Record"));
  expect(text).toContain("Source: ");
  expect(text).toMatch(/take precedence|qualified/);
});

test("few grave cautions stand open, and a script that runs before the picture folds them on a phone", async () => {
  const { context, app } = judgedPrint();
  const few = keptPrint(context.db, "1978.002", { processId: "cyanotype" });
  const html = await (await app.request(`/prints/${few}`)).text();
  expect(html).toMatch(/<details class="caution-fold" open="" data-fold-on-phone/);
  expect(html.indexOf('src="/assets/fold-on-phone.js"')).toBeLessThan(html.indexOf('class="print-top"'));
});

test("many grave cautions are a line each above the picture, with level and title, and the others are named in one", async () => {
  const { page } = judgedPrint();
  const html = await page();
  const above = html.slice(html.indexOf('class="cautions"'), html.indexOf('class="print-top"'));
  const [grave = "", others = ""] = above.split('class="more-cautions"');
  const titles = [...grave.matchAll(/<summary><h2>(Danger|Warning): [^<]+<\/h2><\/summary>/g)];
  expect(titles.length).toBeGreaterThan(2);
  expect(grave.match(/class="caution-fold"/g)).toHaveLength(titles.length);
  expect(grave).not.toContain("open=");
  expect(others).toMatch(/^>\s*<summary>\d+ more cautions: [^<]+;/);
});

test("an instant print without a date of processing says what to fill in, and a rough date ends the caution", async () => {
  const { app, printId, page } = judgedPrint();
  const before = await page();
  expect(words(before)).toContain("Fresh integral print");
  expect(before).toContain(`href="/prints/${printId}/edit#field-processedOn"`);
  expect(await (await app.request(`/prints/${printId}/edit`)).text()).toContain('id="field-processedOn"');
  const saved = { objectNumber: "1978.001", processId: "integral-instant-colour", processedOn: "197X", revision: "1" };
  expect((await send(app, `/prints/${printId}`, saved)).status).toBe(303);
  const after = await page();
  expect(words(after)).not.toContain("Fresh integral print");
  expect(after).not.toContain("#field-processedOn");
  expect(words(after)).toContain("When it was developed 1970s");
  expect(words(after)).toContain("Record changed:");
  expect(words(after)).toMatch(/When it was developed from nothing to “197X”/);
});

test("only an instant print says that it is treated as fresh, and no section stands for what cannot be done", async () => {
  const { context, app, page } = judgedPrint();
  expect(words(await page())).toContain("not known, so it is treated as fresh");
  for (const processId of ["not-known", "gelatin-silver"]) {
    const other = keptPrint(context.db, `1978.9-${processId}`, { processId });
    const text = words(await (await app.request(`/prints/${other}`)).text());
    expect(text).not.toContain("When it was developed");
    expect(text).not.toContain("No survey yet");
  }
});

test("the comparison says what each measure means, and what leaves no sum", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  measuredCapture(context.db, printId, { ...GOOD_ENOUGH, skewDegrees: 45 }, { fileName: "askew.tif" });
  chooseMasters(context);
  const text = words(await (await createApp(context).request(`/prints/${printId}`)).text());
  expect(text).toContain(words(MEASURES.skewDegrees.meaning));
  expect(text).toMatch(/no sum: nothing makes up for [^.]*skew/);
});

test("the table says met, short and not read in words, and gives the reason of what is absent", async () => {
  const { page } = judgedPrint();
  const text = words(await page());
  expect(text).toContain("310 ppi firm short of the aim");
  expect(text).toContain("450 ppi firm meets the aim");
  expect(text).toContain("there is no other capture to compare with");
  expect(text).toContain("at least 392 ppi");
});

test("the table is held against the purpose that is asked for", async () => {
  const { page } = judgedPrint();
  expect(words(await page("?purpose=screen"))).toContain("held against the aim for screen");
  expect(words(await page("?purpose=no-such-purpose"))).toContain("held against the aim for preservation master");
});

test("no star and no level is claimed: what only a target can prove is named as such", async () => {
  const { page } = judgedPrint();
  const text = words(await page());
  expect(text).toContain("Only a target check of the set-up can prove");
  expect(text).toContain("a capture of a print alone never earns one");
});

test("overruling without a reason is refused, keeps what was chosen and opens its form again", async () => {
  const { app, printId, phone } = judgedPrint();
  const answer = await send(app, `/prints/${printId}/master`, {
    side: "front",
    purposeKey: "preservation-master",
    captureId: String(phone),
    reason: " ",
  });
  const html = await answer.text();
  expect(answer.status).toBe(422);
  expect(words(html)).toContain("Say why, so that the next keeper understands.");
  expect(html).toMatch(new RegExp(`<option value="${phone}" selected="">`));
  expect(html).toContain('<details open="">');
});

test("an overruled master is shown with its reason, and released it is the rule's again", async () => {
  const { app, printId, phone, page } = judgedPrint();
  const overruled = await send(app, `/prints/${printId}/master`, {
    side: "front",
    purposeKey: "preservation-master",
    captureId: String(phone),
    reason: "It shows the fold <b>better</b>.",
  });
  expect(overruled.status).toBe(303);
  const html = await page();
  expect(html).not.toContain("<b>better</b>");
  const card = words(html.slice(html.indexOf('id="master-front-preservation-master"'), html.indexOf('id="master-front-reproduction"')));
  expect(card.split("It shows the fold <b>better</b>.")).toHaveLength(2);
  const released = await send(app, `/prints/${printId}/master/release`, { side: "front", purposeKey: "preservation-master" });
  expect(released.headers.get("location")).toContain("done=master-released");
  const after = words(await page());
  expect(after).not.toContain("Let the rule decide again");
  expect(after).toContain("given back to the rule");
});

test("a print without captures says so and leads to adding one; a title is never taken for markup", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.002", { title: "<script>alert(1)</script>" });
  const html = await (await createApp(context).request(`/prints/${printId}`)).text();
  expect(html).not.toContain("<script>alert");
  expect(html).toContain("/add?print=1978.002");
});

test("a print in the bin and a print that never was answer alike: not found", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.003", { binnedAt: "2026-01-01T00:00:00.000Z" });
  const app = createApp(context);
  expect((await app.request(`/prints/${printId}`)).status).toBe(404);
  expect((await app.request("/prints/99999")).status).toBe(404);
  expect((await app.request("/prints/99999999999999999999")).status).toBe(404);
});

test("on a phone the tables of measures fold to their title, unless one was asked for by its purpose", async () => {
  const { page } = judgedPrint();
  const folds = (html: string) => html.match(/<details class="measures-fold" open="" data-fold-on-phone/g)?.length ?? 0;
  const html = await page();
  expect(folds(html)).toBe(1);
  expect(html.lastIndexOf('src="/assets/fold-on-phone.js"')).toBeGreaterThan(html.indexOf('class="measures-fold"'));
  expect(folds(await page("?purpose=screen"))).toBe(0);
});

test("a print kept in PVC is told so on its page, its survey and its report, and one in polyester is not", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  for (const [number, enclosureMaterial] of [
    ["1978.001", "pvc"],
    ["1978.002", "polyester"],
  ] as const) {
    const placeId = insertPlace(context.db, { parentId: null, kind: "album", name: enclosureMaterial, enclosureMaterial });
    const id = keptPrint(context.db, number, { placeId, processId: "chromogenic" });
    for (const path of [`/prints/${id}`, `/prints/${id}/survey`, `/prints/${id}/condition-report`]) {
      const html = await (await app.request(path)).text();
      expect(html.includes("PVC enclosure: it sticks to the image"), path).toBe(enclosureMaterial === "pvc");
    }
  }
});
