import { createHash } from "node:crypto";
import { existsSync, readFileSync, rmSync } from "node:fs";
import { Readable } from "node:stream";
import sharp from "sharp";
import { expect, test, vi } from "vitest";
import { surveyInput } from "#domain/condition/survey-input.ts";
import { listCapturesOfPrint, listOriginals, listTray } from "#drizzle/queries/captures.ts";
import { historyOfPrint } from "#drizzle/queries/events.ts";
import { photographsOfPrint } from "#drizzle/queries/finding-photographs.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { setPrintBinned } from "#drizzle/queries/prints.ts";
import { workProgress } from "#drizzle/queries/work-progress.ts";
import { checkFixity } from "#server/actions/check-fixity.ts";
import { recordSurvey } from "#server/actions/record-survey.ts";
import { takeInCapture } from "#server/actions/take-in-capture.ts";
import { createApp } from "#server/app.ts";
import { originalPath } from "#server/collection-folder.ts";
import type { Context } from "#server/context.ts";
import { keptPrint } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";

const picture = async (level: number) =>
  new Uint8Array(
    await sharp({ create: { width: 60, height: 40, channels: 3, background: { r: level, g: 90, b: 60 } } })
      .jpeg()
      .toBuffer(),
  );

function survey(context: Context, printId: number, surveyedOn: string, rows: Partial<Record<"rejudged" | "found", unknown[]>>) {
  const input = surveyInput.parse({ surveyedOn, grade: "", note: "", rejudged: [], found: [], ...rows });
  const made = recordSurvey(context, { printId, input });
  if (!made.ok) throw new Error(JSON.stringify(made.refusals));
  return (latestFindings(context.db, [printId]).get(printId) ?? []).map(({ id }) => id);
}

/** A print on which a crack and a stain were found. */
function surveyed() {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001", { title: "Ferry", processId: "chromogenic" });
  const found = [
    { term: "crack", severity: "2" },
    { term: "stain", severity: "1" },
  ];
  const [crack = 0, stain = 0] = survey(context, printId, "2026-01-05", { found });
  return { context, app: createApp(context), printId, crack, stain };
}

type Surveyed = ReturnType<typeof surveyed>;

function add({ app }: Pick<Surveyed, "app">, findingId: number, files: Record<string, Uint8Array>, caption = "") {
  const form = new FormData();
  form.append("caption", caption);
  for (const [name, bytes] of Object.entries(files)) form.append("files", new File([bytes as Uint8Array<ArrayBuffer>], name));
  return app.request(`/findings/${findingId}/photographs`, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: form });
}

test("a photograph is kept as an original with its hash, and is no capture: not in the tray, not measured", async () => {
  const of = surveyed();
  const { context, printId, crack } = of;
  const bytes = await picture(120);
  const answer = await add(of, crack, { "IMG_1.jpg": bytes }, " Crack at the lower edge, Žofie's corner ");
  expect(answer.status).toBe(303);
  const [original] = listOriginals(context.db);
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  expect(original).toMatchObject({ sha256, originalName: "IMG_1.jpg", widthPx: 60, heightPx: 40 });
  expect(readFileSync(originalPath(context.folder, sha256))).toEqual(Buffer.from(bytes));
  expect(listCapturesOfPrint(context.db, printId)).toEqual([]);
  expect(listTray(context.db)).toEqual([]);
  expect(workProgress(context.db)).toMatchObject({ waiting: 0, running: 0 });
  expect(photographsOfPrint(context.db, printId).get(crack)).toMatchObject([{ caption: "Crack at the lower edge, Žofie's corner" }]);
  expect(historyOfPrint(context.db, printId)[0]).toMatchObject({
    verb: "photographed",
    detail: { originalName: "IMG_1.jpg", term: "crack" },
  });
});

test("the print's page shows it, also when a later look has judged the finding again or found it gone", async () => {
  const of = surveyed();
  const { context, app, printId, crack, stain } = of;
  await add(of, crack, { "a.jpg": await picture(120) }, "By raking light");
  const shown = async () => (await app.request(`/prints/${printId}`)).text();
  expect(await shown()).toContain("By raking light");
  expect((await app.request("/photographs/1/thumbnail.jpg")).headers.get("content-type")).toBe("image/jpeg");
  const rejudged = [
    { findingId: String(crack), change: "worse", severity: "3", activity: "active", extent: "", note: "" },
    { findingId: String(stain), change: "same", severity: "1", activity: "not-known", extent: "", note: "" },
  ];
  const [again = 0, stainAgain = 0] = survey(context, printId, "2026-05-05", { rejudged });
  expect(await shown()).toContain("By raking light");
  const gone = [
    { findingId: String(again), change: "gone", severity: "0", activity: "not-known", extent: "", note: "" },
    { findingId: String(stainAgain), change: "same", severity: "1", activity: "not-known", extent: "", note: "" },
  ];
  survey(context, printId, "2026-09-05", { rejudged: gone });
  expect(await shown()).toContain("By raking light");
});

test("what is no picture is refused with what was typed kept, and the sound one beside it is kept", async () => {
  const of = surveyed();
  const notes = new TextEncoder().encode("no picture");
  const answer = await add(of, of.crack, { "notes.txt": notes, "a.jpg": await picture(99) }, "Under the loupe");
  const html = await answer.text();
  expect(answer.status).toBe(422);
  expect(html).toContain("notes.txt:");
  expect(html).toContain("Some were kept");
  expect(html).toContain('value="Under the loupe"');
  expect(photographsOfPrint(of.context.db, of.printId).get(of.crack)).toHaveLength(1);
  const none = await add(of, of.crack, {}, "Under the loupe");
  expect(none.status).toBe(422);
  expect(await none.text()).toContain("No file was chosen.");
});

test("one file may show two findings and is stored once; twice for one finding it is refused", async () => {
  const of = surveyed();
  const bytes = await picture(140);
  await add(of, of.crack, { "a.jpg": bytes });
  await add(of, of.stain, { "b.jpg": bytes });
  expect((await add(of, of.crack, { "c.jpg": bytes })).status).toBe(422);
  expect(listOriginals(of.context.db)).toHaveLength(1);
  expect(photographsOfPrint(of.context.db, of.printId).size).toBe(2);
});

test("a fault with one file is told with its name; what was kept beside it, and the caption, stay", async () => {
  const of = surveyed();
  const files = { "a.jpg": await picture(90), "b.jpg": await picture(140), "c.jpg": await picture(190) };
  const told = vi.spyOn(console, "error").mockImplementation(() => {});
  const real = of.context.db.transaction.bind(of.context.db);
  const transaction = vi
    .spyOn(of.context.db, "transaction")
    .mockImplementationOnce(real)
    .mockImplementationOnce(() => {
      throw new Error("the disk is full");
    });
  const answer = await add(of, of.crack, files, "Under the loupe");
  transaction.mockRestore();
  const html = await answer.text();
  expect(answer.status).toBe(422);
  expect(html).toContain("b.jpg: The program met a fault of its own with this file");
  expect(html).toContain('value="Under the loupe"');
  expect(
    photographsOfPrint(of.context.db, of.printId)
      .get(of.crack)
      ?.map(({ name }) => name),
  ).toEqual(["a.jpg", "c.jpg"]);
  expect(String(told.mock.calls[0]?.[0])).toContain("the disk is full");
  told.mockRestore();
});

test("no more than twenty are kept for one finding", async () => {
  const of = surveyed();
  const files = Object.fromEntries(
    await Promise.all(Array.from({ length: 21 }, async (_, index) => [`${index}.jpg`, await picture(index * 10)])),
  );
  const answer = await add(of, of.crack, files);
  expect(answer.status).toBe(422);
  expect(await answer.text()).toContain("More than 20 files were sent");
  expect(photographsOfPrint(of.context.db, of.printId).get(of.crack)).toHaveLength(20);
  const more = await add(of, of.crack, { "more.jpg": await picture(255) });
  expect(await more.text()).toContain("has 20 photographs already");
});

test("the same file added later as a capture becomes one, beside being a photograph, and is stored once", async () => {
  const of = surveyed();
  const bytes = await picture(150);
  await add(of, of.crack, { "a.jpg": bytes });
  const taken = await takeInCapture(of.context, {
    source: Readable.from([Buffer.from(bytes)]),
    originalName: "a.jpg",
    printId: of.printId,
  });
  expect(taken).toMatchObject({ ok: true, value: { alreadyHeld: false, printId: of.printId } });
  expect(listOriginals(of.context.db)).toHaveLength(1);
  expect(listCapturesOfPrint(of.context.db, of.printId)).toHaveLength(1);
  const again = await takeInCapture(of.context, {
    source: Readable.from([Buffer.from(bytes)]),
    originalName: "a.jpg",
    printId: of.printId,
  });
  expect(again).toMatchObject({ ok: true, value: { alreadyHeld: true } });
});

test("it is checked with every other file, and one that is lost is named with its print", async () => {
  const of = surveyed();
  const { context, app, printId } = of;
  await add(of, of.crack, { "a.jpg": await picture(160) });
  expect(await checkFixity(context)).toEqual({ checked: 1, problems: [], left: 0 });
  rmSync(originalPath(context.folder, listOriginals(context.db)[0]?.sha256 ?? ""));
  expect((await checkFixity(context)).problems).toMatchObject([{ about: "a.jpg", happened: "The file is gone." }]);
  const html = await (await app.request("/fixity")).text();
  expect(html).toContain("a.jpg, a photograph of a");
  expect(html).toContain(`/prints/${printId}#survey-title`);
  await add(of, of.stain, { "a.jpg": await picture(160) });
  expect((await checkFixity(context)).problems).toEqual([]);
});

test("taken out, it is gone from the finding; its file stays and is no stray", async () => {
  const of = surveyed();
  const { context, app, printId, crack } = of;
  await add(of, crack, { "a.jpg": await picture(170) });
  const answer = await app.request("/photographs/1/take-out", { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" } });
  expect(answer.headers.get("location")).toBe(`/findings/${crack}/photographs?done=photograph-taken-out`);
  expect(photographsOfPrint(context.db, printId).size).toBe(0);
  expect(existsSync(originalPath(context.folder, listOriginals(context.db)[0]?.sha256 ?? ""))).toBe(true);
  expect((await checkFixity(context)).problems).toEqual([]);
  expect(historyOfPrint(context.db, printId)[0]?.verb).toBe("photograph taken out");
});

test("a print in the bin takes no photographs", async () => {
  const of = surveyed();
  setPrintBinned(of.context.db, of.printId, "2026-02-01T00:00:00.000Z");
  expect((await add(of, of.crack, { "a.jpg": await picture(180) })).status).toBe(404);
  expect(listOriginals(of.context.db)).toEqual([]);
});

test("the form of a survey shows the photographs of what stands, from every look at it, and leads to adding more", async () => {
  const of = surveyed();
  const { context, app, printId, crack, stain } = of;
  await add(of, crack, { "first.jpg": await picture(40) }, "At the first look");
  const rejudged = [
    { findingId: String(crack), change: "same", severity: "2", activity: "stable" },
    { findingId: String(stain), change: "same", severity: "1", activity: "stable" },
  ];
  const [crackNow] = survey(context, printId, "2026-06-05", { rejudged });
  const form = await (await app.request(`/prints/${printId}/survey`)).text();
  expect(form).toContain("At the first look");
  expect(form).toContain(`/findings/${crackNow}/photographs`);
  expect(form.match(/Add or take out photographs/g)).toHaveLength(1);
  expect(form.match(/Add a photograph</g)).toHaveLength(1);
});
