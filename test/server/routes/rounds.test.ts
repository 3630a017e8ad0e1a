import type { Hono } from "hono";
import { expect, test } from "vitest";
import { TERMS } from "#domain/condition/terms.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import { linesOfRound, listRounds } from "#drizzle/queries/rounds.ts";
import { lastSurvey } from "#drizzle/queries/surveys.ts";
import { createApp } from "#server/app.ts";
import { keptPrint } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const send = (app: Hono, path: string, fields: Record<string, string>) =>
  app.request(path, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: new URLSearchParams(fields) });

const words = (html: string) => html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");

/** A shelf with a box in it: three prints in the box, one on the shelf, one elsewhere. */
function aBox() {
  const day = { now: "2026-11-25T12:00:00.000Z" };
  const context = { ...emptyCollection(), now: () => day.now };
  const shelf = insertPlace(context.db, { parentId: null, kind: "shelf", name: "Shelf" });
  const box = insertPlace(context.db, { parentId: shelf, kind: "box", name: "Tin" });
  const [a, b, c] = ["1", "2", "3"].map((number) => keptPrint(context.db, number, { placeId: box })) as [number, number, number];
  keptPrint(context.db, "4", { placeId: shelf });
  keptPrint(context.db, "5");
  const app = createApp(context);
  const begin = async (placeId: number) =>
    (await send(app, "/rounds", { kind: "place", placeId: String(placeId) })).headers.get("location");
  const text = async (path: string) => words(await (await app.request(path)).text());
  return { context, app, box, shelf, prints: { a, b, c }, day, begin, text };
}

test("a box is gone through one print after another, nothing new in one press, and taken up where it was left", async () => {
  const { context, app, box, prints, begin, text } = aBox();
  const look = (await begin(box)) ?? "";
  expect(look).toMatch(/^\/rounds\/\d+\/look$/);
  expect(await text(look)).toContain("1 of 3");
  const html = await (await app.request(look)).text();
  expect(html).toMatch(/<button[^>]*value="same"[^>]*autofocus/);

  expect((await send(app, look, { print: String(prints.a), step: "same" })).headers.get("location")).toBe(look);
  expect(lastSurvey(context.db, prints.a)).toMatchObject({ surveyedOn: "2026-11-25", grade: "good", gradeBasis: "proposed" });
  expect(await text(look)).toContain("2 of 3");
  // left here; begun again from the list of places, it goes on
  expect(await begin(box)).toBe(look);
  expect(listRounds(context.db)).toHaveLength(1);
  expect(await text("/")).toContain("Shelf › Tin: 1 of 3 prints looked at.");

  const noted = { print: String(prints.b), step: "save", "found.0.term": "Mould", "found.0.severity": "3", "found.0.activity": "active" };
  expect((await send(app, look, noted)).status).toBe(303);
  expect(latestFindings(context.db, [prints.b]).get(prints.b)).toMatchObject([{ term: "mould", severity: 3, activity: "active" }]);
  await send(app, look, { print: String(prints.c), step: "same" });
  const end = await app.request(look);
  expect(end.status).toBe(303);
  expect(await text(end.headers.get("location") ?? "")).toContain("Every print of this round has been looked at.");
  expect(await text("/")).not.toContain("prints looked at. Go on");
});

test("a round goes on in the name of who looked last, until another is written", async () => {
  const { context, app, box, prints, begin } = aBox();
  const look = (await begin(box)) ?? "";
  await send(app, look, { print: String(prints.a), step: "save", lookedAtBy: "Łucja Berg" });
  const html = await (await app.request(look)).text();
  expect(html).toContain('<input type="hidden" name="lookedAtBy" value="Łucja Berg"/>');
  // seen before the button that keeps it
  expect(html.split("Nothing new: keep and go on")[0]).toContain("Kept as looked at by <strong>Łucja Berg</strong>");
  expect(words(html)).toContain("Kept as looked at by Łucja Berg");
  await send(app, look, { print: String(prints.b), step: "same", lookedAtBy: "Łucja Berg" });
  expect(lastSurvey(context.db, prints.b)?.lookedAtBy).toBe("Łucja Berg");
  expect((await send(app, look, { print: String(prints.c), step: "same", lookedAtBy: "a".repeat(121) })).status).toBe(422);
  expect(lastSurvey(context.db, prints.c)).toBeNull();
});

test("nothing new says of everything found before that it is the same, places and all", async () => {
  const { context, app, box, prints, day, begin } = aBox();
  const regions = { "found.0.regions": "1,1 5,6", "found.0.extent": "under-2" };
  await send(app, `/prints/${prints.a}/survey`, {
    surveyedOn: "2026-11-25",
    "found.0.term": "stain",
    "found.0.severity": "2",
    "found.0.note": "tea",
    ...regions,
  });
  const [before] = latestFindings(context.db, [prints.a]).get(prints.a) ?? [];
  day.now = "2027-11-25T12:00:00.000Z";
  await send(app, (await begin(box)) ?? "", { print: String(prints.a), step: "same" });
  const [after] = latestFindings(context.db, [prints.a]).get(prints.a) ?? [];
  expect(after).toMatchObject({ surveyedOn: "2027-11-25", change: "same", severity: 2, note: "tea", extent: "under-2" });
  expect(after?.earlierFindingId).toBe(before?.id);
  expect(after?.regions).toEqual(before?.regions);
  expect(after?.regions).toHaveLength(1);
});

test("left for later comes after the others, sent twice is kept once, and refused keeps what was typed", async () => {
  const { context, app, box, prints, begin, text } = aBox();
  const look = (await begin(box)) ?? "";
  const roundId = Number(look.split("/")[2]);
  await send(app, look, { print: String(prints.a), step: "pass" });
  expect(await (await app.request(look)).text()).toContain(`name="print" value="${prints.b}"`);
  await send(app, look, { print: String(prints.b), step: "same" });
  await send(app, look, { print: String(prints.b), step: "same" });
  expect(linesOfRound(context.db, roundId).filter(({ surveyId }) => surveyId !== null)).toHaveLength(1);
  const refused = await send(app, look, { print: String(prints.c), step: "save", "found.0.term": "nibbled", "found.0.severity": "2" });
  expect(refused.status).toBe(422);
  expect(await refused.text()).toContain('value="nibbled"');
  await send(app, look, { print: String(prints.c), step: "same" });
  expect(await (await app.request(look)).text()).toContain(`name="print" value="${prints.a}"`);
  expect(await text(`/rounds/${roundId}`)).toContain("left for later");
});

test("a round says what its terms mean and how their levels look, before and after one is chosen", async () => {
  const { app, box, prints, day, begin } = aBox();
  const mould = TERMS.find(({ id }) => id === "mould");
  if (!mould) throw new Error("no such term");
  const look = (await begin(box)) ?? "";
  const html = await (await app.request(look)).text();
  const definition = /<dt id="term-mould">.*?<\/dd>/s.exec(html)?.[0] ?? "";
  for (const said of [mould.definition, ...mould.levels]) expect(definition).toContain(said);
  // refused for want of a level: the meaning stands at the field, and the levels are those of the term
  const refused = await (await send(app, look, { print: String(prints.a), step: "save", "found.0.term": "Mould" })).text();
  expect(refused).toContain(`3 marked: ${mould.levels[2]}</option>`);
  expect(/data-term-beside.*?<\/ul>/s.exec(refused)?.[0]).toContain(mould.definition);
  await send(app, look, { print: String(prints.a), step: "save", "found.0.term": "Mould", "found.0.severity": "1" });
  day.now = "2027-11-25T12:00:00.000Z";
  for (const printId of [prints.b, prints.c]) await send(app, look, { print: String(printId), step: "same" });
  const again = await (await app.request((await begin(box)) ?? "")).text();
  expect(again).toContain("<summary>What Mould means</summary>");
});

test("a place holds what is inside it, an empty one and an unknown one are refused", async () => {
  const { context, app, shelf, begin } = aBox();
  const look = (await begin(shelf)) ?? "";
  expect(linesOfRound(context.db, Number(look.split("/")[2])).map(({ objectNumber }) => objectNumber)).toEqual(["1", "2", "3", "4"]);
  const empty = insertPlace(context.db, { parentId: null, kind: "box", name: "Empty" });
  expect((await send(app, "/rounds", { kind: "place", placeId: String(empty) })).status).toBe(422);
  expect((await send(app, "/rounds", { kind: "place", placeId: "999" })).status).toBe(422);
  expect((await send(app, "/rounds", { kind: "place", placeId: "" })).status).toBe(422);
  expect((await app.request("/rounds/999")).status).toBe(404);
});

test("the same seed draws the same prints, and the sample says how sure its shares are of all", async () => {
  const { context, app, text } = aBox();
  for (let number = 100; number < 200; number++) keptPrint(context.db, String(number));
  const draw = async (seed: string) => {
    const made = await send(app, "/rounds", { kind: "sample", marginPercent: "15", seed });
    return made.headers.get("location") ?? "";
  };
  const drawn = (address: string) => linesOfRound(context.db, Number(address.split("/")[2])).map(({ objectNumber }) => objectNumber);
  const first = await draw("7");
  expect(drawn(await draw("7"))).toEqual(drawn(first));
  expect(drawn(await draw("8"))).not.toEqual(drawn(first));
  // 1.96² × 0.25 / 0.15² = 42.7; of 105 prints: 42.7 / (1 + 41.7 / 105) = 30.6
  expect(drawn(first)).toHaveLength(31);

  const looked = linesOfRound(context.db, Number(first.split("/")[2]));
  for (const { printId } of looked.slice(0, 30)) await send(app, `${first}/look`, { print: String(printId), step: "same" });
  expect(await text(first)).toContain("Not final: 1 are still to be looked at");
  const severe = { step: "save", "found.0.term": "mould", "found.0.severity": "4" };
  await send(app, `${first}/look`, { print: String(looked[30]?.printId), ...severe });
  const result = await text(first);
  expect(result).not.toContain("Not final");
  expect(result).toMatch(/Poor or unacceptable 1 3\.2 % \d/);
  expect(result).toContain("drawn with the seed 7");
  const refused = await send(app, "/rounds", { kind: "sample", marginPercent: "0", seed: "many" });
  expect(refused.status).toBe(422);
  expect(words(await refused.text())).toContain("from 0.5 to 40");
});
