import { parse } from "csv-parse/sync";
import type { Hono } from "hono";
import { expect, test } from "vitest";
import { TERMS, termsFor } from "#domain/condition/terms.ts";
import { createApp } from "#server/app.ts";
import { keptPrint } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const send = (app: Hono, path: string, fields: Record<string, string>) =>
  app.request(path, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: new URLSearchParams(fields) });

/** What a reader sees: the text alone, each run of blanks as one. */
const words = (html: string) => html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");

function anIntegralPrint() {
  const context = { ...emptyCollection(), now: () => "2026-11-25T12:00:00.000Z" };
  const printId = keptPrint(context.db, "1978.001", { processId: "integral-instant-colour", processedOn: "1978" });
  const other = keptPrint(context.db, "1978.002");
  const app = createApp(context);
  const address = `/prints/${printId}/survey`;
  const page = async () => (await app.request(`/prints/${printId}`)).text();
  const form = async (query = "") => (await app.request(`${address}${query}`)).text();
  const save = (fields: Record<string, string>) => send(app, address, { surveyedOn: "2026-11-25", grade: "", ...fields });
  return { app, address, other, page, form, save };
}

const LEAK = { "found.0.term": "reagent-leak", "found.0.severity": "4", "found.0.activity": "active", "found.0.note": "lower edge" };

test("the whole way: a leak noted on the form stands as danger on the print page, until a later look says that it is gone", async () => {
  const { app, page, form, save } = anIntegralPrint();
  expect(words(await page())).toContain("Nobody has looked at its condition yet. Look at its condition");
  expect(words(await page())).not.toContain("Danger: Leaking reagent");

  const saved = await save({ ...LEAK, "found.2.term": "abrasion", "found.2.severity": "1" });
  expect(saved.status).toBe(303);
  expect(await (await app.request(saved.headers.get("location") ?? "")).text()).toContain("The look is kept");
  const after = words(await page());
  expect(after).toContain("Danger: Leaking reagent");
  expect(after).toContain("Unacceptable");
  expect(after).toContain("Because Reagent leak is severe and active.");
  expect(after).toContain("4 of 4: Fresh wet paste");
  expect(after).toContain("Condition looked at on 25 November 2026: unacceptable. New: Reagent leak: severe. New: Abrasion: slight.");
  expect(words(await form())).toContain("Danger: Leaking reagent");

  const [row]: Record<string, string>[] = parse(await (await app.request("/inventory.csv")).text(), { columns: true });
  expect(row).toMatchObject({
    condition_grade: "unacceptable",
    condition_surveyed_on: "2026-11-25",
    active_findings: "Reagent leak: severe",
  });
  expect(row?.cautions).toMatch(/^Leaking reagent/);

  const again = hiddenFields(await form());
  expect(Object.keys(again)).toEqual(["rejudged.0.findingId", "rejudged.1.findingId"]);
  const rejudged = {
    ...again,
    "rejudged.0.change": "gone",
    "rejudged.0.severity": "4",
    "rejudged.1.change": "worse",
    "rejudged.1.severity": "2",
  };
  expect((await save(rejudged)).status).toBe(303);
  const healed = words(await page());
  expect(healed).not.toContain("Danger: Leaking reagent");
  expect(healed).toContain("Gone since: Reagent leak");
  expect(healed).toContain("25 November 2026 worse, moderate 25 November 2026 found, slight");
});

test("who looked is named on the print page, in its history and per finding, and proposed for the next look at any print", async () => {
  const { app, page, form, save, other } = anIntegralPrint();
  const field = (html: string) => /<input[^>]*name="lookedAtBy"[^>]*>/.exec(html)?.[0];
  expect(field(await form())).toContain('value=""');
  expect((await save({ ...LEAK, lookedAtBy: "  Łucja\nBerg " })).status).toBe(303);
  expect(words(await page())).toContain("Looked at on 25 November 2026, by Łucja Berg.");
  expect(words(await page())).toContain("Condition looked at on 25 November 2026 by Łucja Berg: unacceptable.");
  expect(field(await form())).toContain('value="Łucja Berg"');
  expect(field(await (await app.request(`/prints/${other}/survey`)).text())).toContain('value="Łucja Berg"');

  const rejudged = { ...hiddenFields(await form()), "rejudged.0.change": "same", "rejudged.0.severity": "4" };
  const refused = await save({ ...rejudged, lookedAtBy: "a".repeat(121) });
  expect(refused.status).toBe(422);
  expect(await refused.text()).toContain('href="#field-lookedAtBy"');
  expect((await save({ ...rejudged, lookedAtBy: "" })).status).toBe(303);
  expect(words(await page())).toContain("Looked at on 25 November 2026, by whom is not said.");
  expect(words(await page())).toMatch(/25 November 2026 same, severe 25 November 2026 found, severe \(Łucja Berg\)/);
  expect(field(await form())).toContain('value=""');
});

test("the list holds what can befall the process and, when asked for, every term, with the definitions beside it", async () => {
  const { form } = anIntegralPrint();
  const offered = (html: string) =>
    TERMS.filter(({ name }) => html.includes(`<option value="${name.replaceAll("&", "&amp;")}">`)).map(({ id }) => id);
  const html = await form();
  expect(offered(html)).toContain("reagent-leak");
  expect(offered(html)).not.toContain("tarnish");
  expect(offered(html)).toEqual(termsFor("integral-instant-colour").map(({ id }) => id));
  for (const { name, sources } of termsFor("integral-instant-colour")) {
    expect(words(html)).toContain(name);
    expect(words(html)).toContain(`Source: ${sources.join("; ").replaceAll("&", "&amp;")}`);
  }
  expect(offered(await form("?terms=all"))).toHaveLength(TERMS.length);
});

test("more rows keep what was typed, show the levels of the term and the grade it would be, and save nothing", async () => {
  const { page, save } = anIntegralPrint();
  const answer = await save({ ...LEAK, step: "more" });
  const html = await answer.text();
  expect(answer.status).toBe(200);
  expect(words(html)).toContain("Proposed from what is written so far: Unacceptable, because Reagent leak is severe and active.");
  expect(html).toMatch(/<input[^>]*name="found\.0\.term"[^>]*value="Reagent leak"/);
  expect(html).toContain("4 severe: Fresh wet paste");
  expect(html).toContain("lower edge");
  expect(html).toContain('name="found.3.term"');
  expect(words(await page())).toContain("Nobody has looked at its condition yet");
});

test("asking for every term, or for those of its process again, keeps what was typed and the rows as they are", async () => {
  const { page, address, app } = anIntegralPrint();
  for (const [query, offers] of [
    ["?terms=all", true],
    ["", false],
  ] as const) {
    const html = await (await send(app, `${address}${query}`, { ...LEAK, surveyedOn: "2026-11-25", step: "terms" })).text();
    expect(html.includes('<option value="Tarnish">')).toBe(offers);
    expect(html).toContain("lower edge");
    expect(html.match(/New finding \d+<\/legend>/g)).toHaveLength(3);
  }
  expect(words(await page())).toContain("Nobody has looked at its condition yet");
});

test("what is not whole is refused at its field, with everything typed still there", async () => {
  const { page, save } = anIntegralPrint();
  const answer = await save({ "found.1.note": "lower <edge>", note: "seen in daylight" });
  const html = await answer.text();
  expect(answer.status).toBe(422);
  expect(html).toContain('href="#field-found.1.term"');
  expect(html).toContain('id="field-found.1.term"');
  expect(html).toContain("lower &lt;edge&gt;");
  expect(html).toContain("seen in daylight");
  expect(words(await page())).toContain("Nobody has looked at its condition yet");
});

test("two people look at one print: the second is told, and sees the findings of the first", async () => {
  const { save } = anIntegralPrint();
  await save(LEAK);
  const answer = await save({ "found.0.term": "curl" });
  expect(answer.status).toBe(422);
  const second = await save({ "found.0.term": "scratch", "found.0.severity": "1" });
  const text = words(await second.text());
  expect(second.status).toBe(422);
  expect(text).toContain("the print was looked at meanwhile");
  expect(text).toContain("On 25 November 2026: severe, active. lower edge");
});

test("a row number beyond all reason asks for no rows", async () => {
  const { save, form } = anIntegralPrint();
  for (const [rows, shown] of [
    ["5", 5],
    ["4000000000", 60],
    ["1e999", 60],
    ["-4", 3],
    ["many", 3],
  ] as const)
    expect((await form(`?rows=${rows}`)).match(/New finding \d+<\/legend>/g)).toHaveLength(shown);
  const html = await (await save({ "found.4000000000.term": "mould", "found.-1.term": "mould", step: "more" })).text();
  expect(html.match(/New finding \d+<\/legend>/g)).toHaveLength(3);
});

/** The hidden fields of the form, as a browser would send them back. */
const hiddenFields = (html: string): Record<string, string> =>
  Object.fromEntries([...html.matchAll(/<input type="hidden" name="([^"]+)" value="([^"]*)"/g)].map((found) => [found[1], found[2]]));
