import type { Hono } from "hono";
import { expect, test } from "vitest";
import { findPrint, findPrintByNumber, insertPrint, listObjectNumbers } from "#drizzle/queries/prints.ts";
import { createApp } from "#server/app.ts";
import { emptyCollection } from "../../fixtures/collection.ts";
import { printValues } from "../../fixtures/prints.ts";

const NOW = "2026-11-25T10:00:00.000Z";

const send = (app: Hono, path: string, fields: Record<string, string>) =>
  app.request(path, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: new URLSearchParams(fields) });

const page = async (app: Hono, path: string) => (await app.request(path)).text();

const EVERYTHING = {
  objectNumber: "1978.004.12",
  title: "Picnic at the weir",
  processId: "integral-instant-colour",
  formatId: "integral-large-square",
  sheetWidthMm: "88,5",
  sheetHeightMm: "107.5",
  imageWidthMm: "78.9",
  imageHeightMm: "76.8",
  borderTopMm: "6",
  borderRightMm: "4.8",
  borderBottomMm: "24.7",
  borderLeftMm: "4.8",
  thicknessMm: "0.4",
  orientation: "portrait",
  date: "1978~",
  dateGround: "the car",
  maker: "Ada Lindqvist",
  people: "Ada Lindqvist\r\nJohn Osei",
  subjects: "weir\r\npicnic",
  inscriptionFront: "",
  inscriptionBack: "for Linda\r\n[?] 1978",
  placeId: "1",
  provenance: "found in the attic",
  rightsUri: "http://rightsstatements.org/vocab/InC/1.0/",
  credit: "Lindqvist family",
  valueAmount: "25",
  valueCurrency: "EUR",
  significance: "4",
  significanceNote: "the only colour picture of the weir",
  processedOn: "1978-06-21",
  notes: "A <b>note</b> & more",
};

test("a form with every field filled enters the print, and its page for editing shows the same again", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  await send(app, "/places", { kind: "box", name: "Box 4" });
  const answer = await send(app, "/prints", EVERYTHING);
  const print = findPrintByNumber(context.db, "1978.004.12");
  expect(answer.status, await answer.clone().text()).toBe(303);
  expect(answer.headers.get("location")).toBe(`/prints/${print?.id}?done=print-created`);
  expect(print).toMatchObject({
    sheetWidthMm: 88.5,
    people: ["Ada Lindqvist", "John Osei"],
    inscriptionFront: null,
    inscriptionBack: "for Linda\n[?] 1978",
    date: "1978~",
    dateEarliest: "1978-01-01",
    dateLatest: "1978-12-31",
    placeId: 1,
    significance: 4,
    valueAmount: 25,
    notes: "A <b>note</b> & more",
  });
  const again = await page(app, `/prints/${print?.id}/edit`);
  for (const text of [
    'value="88.5"',
    "Ada Lindqvist\nJohn Osei",
    "for Linda\n[?] 1978",
    "A &lt;b&gt;note&lt;/b&gt; &amp; more",
    'value="1978~"',
  ])
    expect(again).toContain(text);
});

test("saving the form of an untouched print changes nothing", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  await send(app, "/places", { kind: "box", name: "Box 4" });
  await send(app, "/prints", EVERYTHING);
  const form = await page(app, "/prints/1/edit");
  const shown: Record<string, string> = {};
  const text = (html: string) => html.replaceAll("&lt;", "<").replaceAll("&gt;", ">").replaceAll("&quot;", '"').replaceAll("&amp;", "&");
  const record = form.slice(form.indexOf('<form class="record"'), form.indexOf('<form class="card to-the-bin"'));
  for (const [, attributes = ""] of record.matchAll(/<input([^>]*)>/g)) {
    const name = /name="([^"]*)"/.exec(attributes)?.[1];
    if (name) shown[name] = text(/value="([^"]*)"/.exec(attributes)?.[1] ?? "");
  }
  for (const [, name = "", inside = ""] of record.matchAll(/<textarea[^>]*name="([^"]*)"[^>]*>([^<]*)<\/textarea>/g))
    shown[name] = text(inside);
  for (const [, name = "", inside = ""] of record.matchAll(/<select[^>]*name="([^"]*)"[^>]*>(.*?)<\/select>/gs))
    shown[name] = text(/<option value="([^"]*)" selected/.exec(inside)?.[1] ?? "");
  expect(Object.keys(shown)).toEqual(expect.arrayContaining([...Object.keys(EVERYTHING), "revision"]));
  const answer = await send(app, "/prints/1", shown);
  expect(answer.headers.get("location")).toBe("/prints/1?done=print-unchanged");
  expect(findPrint(context.db, 1)?.revision).toBe(1);
});

test("a refused form keeps everything typed, marks the fields and links to them from the top", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  const answer = await send(app, "/prints", { ...EVERYTHING, placeId: "", sheetWidthMm: "88x", date: "junio", notes: "keep <me>" });
  expect(answer.status).toBe(422);
  const html = await answer.text();
  expect(html).toContain("Everything you typed is still here");
  expect(html).toContain('href="#field-sheetWidthMm"');
  expect(html).toContain('href="#field-date"');
  expect(html).toContain('value="88x"');
  expect(html).toContain('value="junio"');
  expect(html).toContain("keep &lt;me&gt;");
  expect(html).toContain('value="Picnic at the weir"');
  expect(html).toMatch(/<option value="integral-large-square" selected/);
  expect(html).toMatch(/<input[^>]*id="field-date"[^>]*aria-invalid="true"/);
  expect(listObjectNumbers(context.db)).toEqual([]);
});

test("an empty form asks for the number and invents nothing", async () => {
  const app = createApp(emptyCollection());
  const answer = await send(app, "/prints", {});
  expect(answer.status).toBe(422);
  expect(await answer.text()).toMatch(/<input[^>]*id="field-objectNumber"[^>]*aria-invalid="true"/);
});

test("number and title are enough", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  expect((await send(app, "/prints", { objectNumber: "1", title: "Picnic" })).status).toBe(303);
  expect(findPrintByNumber(context.db, "1")).toMatchObject({ title: "Picnic", processId: "not-known", formatId: null, people: [] });
});

test("a new form proposes a number that nobody has, not even the bin", async () => {
  const context = { ...emptyCollection(), now: () => NOW };
  const app = createApp(context);
  const proposed = async () => /id="field-objectNumber"[^>]*value="([^"]*)"/.exec(await page(app, "/prints/new"))?.[1] ?? "";
  const first = await proposed();
  expect(first).toMatch(/^2026\.\d{3}$/);
  await send(app, "/prints", { objectNumber: first });
  const second = await proposed();
  expect(second).not.toBe(first);
  await send(app, "/prints/1/bin", {});
  expect(await proposed()).toBe(second);
});

test("two people who save the same print: the second sees both texts, loses none, and may then save", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  const id = insertPrint(context.db, printValues("1", { title: "Picnic" }), NOW);
  expect((await send(app, `/prints/${id}`, { objectNumber: "1", title: "From the first", revision: "1" })).status).toBe(303);
  const answer = await send(app, `/prints/${id}`, { objectNumber: "1", title: "From the second", revision: "1" });
  expect(answer.status).toBe(409);
  const html = await answer.text();
  expect(html).toContain("Somebody else saved this print");
  expect(html).toContain('<td class="as-typed">From the first</td>');
  expect(html).toContain('<td class="as-typed">From the second</td>');
  expect(html).toMatch(/id="field-title"[^>]*value="From the second"/);
  expect(html).toContain('name="revision" value="2"');
  expect(findPrint(context.db, id)?.title).toBe("From the first");
  expect((await send(app, `/prints/${id}`, { objectNumber: "1", title: "From the second", revision: "2" })).status).toBe(303);
});

test("deleting leads to the bin, and restoring leads back", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  const id = insertPrint(context.db, printValues("1978.004", { title: "Picnic" }), NOW);
  expect((await send(app, `/prints/${id}/bin`, {})).headers.get("location")).toBe("/bin?done=print-binned");
  expect(await page(app, "/bin")).toContain("1978.004");
  expect(await page(app, "/prints")).not.toContain("1978.004");
  expect((await app.request(`/prints/${id}/edit`)).status).toBe(404);
  expect((await send(app, `/bin/${id}/restore`, {})).status).toBe(303);
  expect(await page(app, "/prints")).toContain("1978.004");
});

test("the list shows what the address asks for, and keeps it in the form", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  insertPrint(context.db, printValues("1978.004", { title: "Picnic at the weir" }), NOW);
  insertPrint(context.db, printValues("1978.005", { title: "Ferry landing" }), NOW);
  const html = await page(app, "/prints?search=weir&captures=without&view=sheet");
  expect(html).toContain("1978.004");
  expect(html).not.toContain("1978.005");
  expect(html).toMatch(/id="field-search"[^>]*value="weir"/);
  expect(html).toContain('class="contact-sheet"');
  expect(html).toContain('href="/prints?captures=without&amp;view=sheet"');
});

test("a page beyond the last says so and leads to the first", async () => {
  const context = emptyCollection();
  insertPrint(context.db, printValues("1"), NOW);
  const html = await page(createApp(context), "/prints?page=9");
  expect(html).toContain("There is no page 9");
});

test("what a stranger writes into an address never becomes part of the page's code", async () => {
  const html = await page(createApp(emptyCollection()), `/prints?search=${encodeURIComponent('"><script>alert(1)</script>')}&done=%3Cb%3E`);
  expect(html).not.toContain("<script>alert");
  expect(html).not.toContain("<b>");
});

test("an answer that htmx takes names the clean address", async () => {
  const answer = await createApp(emptyCollection()).request("/prints?search=&process=&format=&captures=any&sort=date");
  expect(answer.headers.get("hx-replace-url")).toBe("/prints?sort=date");
});

test("the chosen format is shown with its nominal size, its source and its doubt", async () => {
  const html = await page(createApp(emptyCollection()), "/formats?formatId=integral-large-square");
  const facts = html.slice(html.indexOf('id="format-facts"'), html.indexOf('<section class="table-frame"'));
  expect(facts).toContain("88.5 × 107.5 mm");
  expect(facts).toContain("second-hand");
  expect(facts).toContain("Doubt:");
});

test("a currency written out is refused with what to write, and never cut to three letters by its field", async () => {
  const app = createApp(emptyCollection());
  expect(await (await app.request("/prints/new")).text()).not.toMatch(/name="valueCurrency"[^>]*maxlength="[1-9]"/i);
  const answer = await app.request("/prints", {
    method: "POST",
    headers: { "Sec-Fetch-Site": "same-origin" },
    body: new URLSearchParams({ objectNumber: "1978.001", valueAmount: "20", valueCurrency: "Euros" }),
  });
  expect(answer.status).toBe(422);
  expect(await answer.text()).toContain("Write the currency as its three letters, such as EUR");
});

test("a number that is taken is told together with the other mistakes", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  const send = (path: string, fields: Record<string, string>) =>
    app.request(path, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: new URLSearchParams(fields) });
  await send("/prints", { objectNumber: "1978.001", title: "The weir" });
  const made = await (await send("/prints", { objectNumber: " 1978.001 ", date: "yesterday" })).text();
  expect(made).toContain("Number 1978.001 already belongs to “The weir”");
  expect(made).toContain('href="#field-date"');
  const own = await (await send("/prints/1", { objectNumber: "1978.001", date: "yesterday", revision: "1" })).text();
  expect(own).not.toContain("already belongs");
});
