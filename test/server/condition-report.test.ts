import { existsSync, readFileSync } from "node:fs";
import path from "node:path";
import { Readable } from "node:stream";
import { getDocument, OPS, type PDFDocumentProxy } from "pdfjs-dist/legacy/build/pdf.mjs";
import sharp from "sharp";
import { expect, onTestFinished, test } from "vitest";
import { surveyInput } from "#domain/condition/survey-input.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { setPrintBinned } from "#drizzle/queries/prints.ts";
import { photographFinding } from "#server/actions/photograph-finding.ts";
import { recordSurvey } from "#server/actions/record-survey.ts";
import { createApp } from "#server/app.ts";
import type { Context } from "#server/context.ts";
import { openCollection } from "#server/open-collection.ts";
import { keptPrint, measuredCapture } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { aPrintWithASheet } from "../fixtures/print-with-sheet.ts";
import { emptyFolder, solander } from "./cli/command-line.ts";

async function opened(bytes: Uint8Array): Promise<PDFDocumentProxy> {
  const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  onTestFinished(() => task.destroy());
  return task.promise;
}

async function reportOf(context: Context, printId: number) {
  const answer = await createApp(context).request(`/prints/${printId}/condition-report.pdf`);
  expect(answer.headers.get("content-type")).toBe("application/pdf");
  const bytes = new Uint8Array(await answer.arrayBuffer());
  const pdf = await opened(bytes);
  const pages = await Promise.all(Array.from({ length: pdf.numPages }, (_, index) => pdf.getPage(index + 1)));
  return { bytes, pdf, pages };
}

type Report = Awaited<ReturnType<typeof reportOf>>;

async function items({ pages }: Report) {
  const all = await Promise.all(pages.map((page) => page.getTextContent()));
  return all.map(({ items: ofPage }) =>
    ofPage.flatMap((item) => ("str" in item ? [{ text: item.str, at: item.transform as number[] }] : [])),
  );
}

const textOf = async (report: Report) =>
  (await items(report))
    .map((page) => page.map(({ text }) => text).join(" "))
    .join("\n")
    .replaceAll(/ +/g, " ");

/** Where pictures are painted: the matrix that stands when each is. */
async function pictures({ pages }: Report) {
  const painted: { page: number; width: number; height: number; left: number; bottom: number }[] = [];
  for (const [page, each] of pages.entries()) {
    const { fnArray, argsArray } = await each.getOperatorList();
    const at: number[][] = [[1, 0, 0, 1, 0, 0]];
    for (const [index, operator] of fnArray.entries()) {
      const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = at.at(-1) ?? [];
      if (operator === OPS.save) at.push([a, b, c, d, e, f]);
      if (operator === OPS.restore) at.pop();
      if (operator === OPS.transform) {
        const [A, B, C, D, E, F] = argsArray[index] as [number, number, number, number, number, number];
        at[at.length - 1] = [a * A + c * B, b * A + d * B, a * C + c * D, b * C + d * D, a * E + c * F + e, b * E + d * F + f];
      }
      // a picture fills the unit square, which is turned upside down where its height is below nought
      if (operator === OPS.paintImageXObject)
        painted.push({ page, width: Math.abs(a), height: Math.abs(d), left: e, bottom: Math.min(f, f + d) });
    }
  }
  return painted;
}

function survey(
  context: Context,
  printId: number,
  surveyedOn: string,
  rows: { found?: unknown[]; rejudged?: unknown[]; by?: string },
): number[] {
  const input = surveyInput.parse({
    surveyedOn,
    grade: "",
    note: "Seen by Žofie Nováková",
    rejudged: [],
    found: [],
    lookedAtBy: rows.by,
    ...rows,
  });
  const made = recordSurvey(context, { printId, input });
  if (!made.ok) throw new Error(JSON.stringify(made.refusals));
  return (latestFindings(context.db, [printId]).get(printId) ?? []).map(({ id }) => id);
}

/** A sheet of 80 × 60 mm with a leak that was marked from 20 to 30 mm across and 30 to 40 down, photographed, and judged twice. */
async function surveyedPrint({ caption = "Raking light", by = "" } = {}) {
  const { context, printId } = await aPrintWithASheet();
  context.db.$client
    .prepare("update prints set title = ?, people = ?, process_id = 'integral-instant-colour', processed_on = '1978' where id = ?")
    .run("Νίκη στο λιμάνι", JSON.stringify(["Žofie Nováková", "Łukasz Żak"]), printId);
  const leak = { term: "reagent-leak", severity: "3", activity: "active", regions: "20,30 30,40", note: "White crust, влажно" };
  const [first = 0] = survey(context, printId, "2026-01-05", { found: [leak] });
  const picture = await sharp({ create: { width: 300, height: 200, channels: 3, background: "#705030" } })
    .jpeg()
    .toBuffer();
  await photographFinding(context, { findingId: first, caption, source: Readable.from([picture]), originalName: "a.jpg" });
  const rejudged = [
    { findingId: String(first), change: "worse", severity: "4", activity: "active", extent: "", note: "White crust, влажно" },
  ];
  survey(context, printId, "2026-06-05", { rejudged, by });
  return { context, printId };
}

test("the report tells record, findings with level and note, how they went on, cautions and signatures, in any European script", async () => {
  const { context, printId } = await surveyedPrint();
  const text = await textOf(await reportOf(context, printId));
  expect(text).toContain("Νίκη στο λιμάνι");
  expect(text).toContain("Žofie Nováková; Łukasz Żak");
  expect(text).toContain("Integral instant print, colour");
  expect(text).toMatch(/1 Leaked reagent.*: severe, active|1 Reagent leak.*: severe, active/i);
  expect(text).toContain("Level 4 of 4:");
  expect(text).toContain("White crust, влажно");
  expect(text).toContain("20 mm from the left, 30 mm from the top, 10 × 10 mm");
  expect(text).toMatch(/5 January 2026 found, marked; 5 June 2026 worse, severe/);
  expect(text).toContain("Danger: Leaking reagent:");
  expect(text).toContain("take precedence over this note");
  expect(text).toContain("Not with a sheet-fed scanner or a flatbed scanner");
  expect(text).toContain("Looked at by (name, day, signature)");
  expect(text).not.toContain("\uFFFD");
});

test("a look without a grade leaves no empty paragraph on the page of the report", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  survey(context, printId, "2026-01-05", {});
  context.db.$client.prepare("update surveys set grade = null").run();
  const page = await (await createApp(context).request(`/prints/${printId}/condition-report`)).text();
  expect(page).toContain("Looked at");
  expect(page).not.toMatch(/<p[^>]*><\/p>/);
});

test("who looked is named beside the day, and no name stands on a line that is to be signed", async () => {
  for (const by of ["Łucja Berg", "Łucja ".repeat(20).trim()]) {
    const { context, printId } = await surveyedPrint({ by });
    const text = (await textOf(await reportOf(context, printId))).replace(/\s+/g, " ");
    expect(text).toContain(`Looked at: 5 June 2026, by ${by}`);
    expect(text).toContain("Looked at by (name, day, signature)");
    expect(text).toContain("Received by (name, day, signature)");
  }
});

test("the front is in it with the marked place numbered where it lies, and so is the photograph of the finding", async () => {
  const { context, printId } = await surveyedPrint();
  const report = await reportOf(context, printId);
  const [front, photograph, ...others] = await pictures(report);
  expect(others).toEqual([]);
  if (!front || !photograph) throw new Error("no pictures");
  expect(front.width / front.height).toBeCloseTo(80 / 60, 2);
  expect(photograph.width / photograph.height).toBeCloseTo(300 / 200, 2);
  const pt = front.width / 80;
  const corner = { x: front.left + 20 * pt, y: front.bottom + front.height - 30 * pt };
  const onPage = (await items(report))[front.page] ?? [];
  const numbers = onPage.filter(({ text, at }) => text === "1" && (at[4] as number) > front.left && (at[5] as number) > front.bottom);
  expect(numbers).toHaveLength(1);
  // the number stands in a disc of 6.5 pt round the corner of the place
  expect(Math.abs((numbers[0]?.at[4] ?? 0) - corner.x)).toBeLessThan(6.5);
  expect(Math.abs((numbers[0]?.at[5] ?? 0) - corner.y)).toBeLessThan(6.5);
});

test("the pictures stand on the first page, with record and condition below them, so that no page is left half empty", async () => {
  const { context, printId } = await surveyedPrint();
  const report = await reportOf(context, printId);
  const [front] = await pictures(report);
  expect(front?.page).toBe(0);
  const [first = []] = await items(report);
  const lowest = Math.min(...first.filter(({ text }) => !text.includes("page 1 of")).map(({ at }) => at[5] as number));
  expect(lowest).toBeLessThan(842 / 4);
});

test("page and file say the same of a print, in the same words and order", async () => {
  const { context, printId } = await surveyedPrint();
  const [leak] = latestFindings(context.db, [printId]).get(printId) ?? [];
  survey(context, printId, "2026-07-01", {
    rejudged: [{ findingId: String(leak?.id), change: "same", severity: "4", activity: "active", extent: "", note: "" }],
    found: [{ term: "fading", severity: "2", activity: "stable" }],
  });
  const answer = await createApp(context).request(`/prints/${printId}/condition-report`);
  expect(answer.status).toBe(200);
  const page = (await answer.text()).replaceAll("&quot;", '"').replaceAll("&#39;", "'");
  const file = await textOf(await reportOf(context, printId));
  const said = [
    "Condition report of",
    "Danger: Leaking reagent",
    "without a marked place: 2.",
    "Žofie Nováková; Łukasz Żak",
    "Level 4 of 4:",
    "20 mm from the left, 30 mm from the top, 10 × 10 mm",
    "Raking light, added",
    "none marked on the front.",
    "take precedence over this note",
    "No side has captures of two known days, so no change can be measured yet.",
    "Looked at by (name, day, signature)",
  ];
  const places = (text: string) => said.map((words) => text.indexOf(words));
  for (const text of [page.replaceAll(/<[^>]+>/g, ""), file]) {
    expect(places(text)).not.toContain(-1);
    expect(places(text)).toEqual(places(text).toSorted((a, b) => a - b));
  }
  expect(page).toContain(`/prints/${printId}/sides/front.jpg`);
  expect(page).toMatch(/<text class="mark-number"[^>]*>\s*1\s*<\/text>/);
  expect(page).toMatch(/\/photographs\/\d+\/view\.jpg/);
});

test("two captures of different days that nobody has held against each other are named, with the way to do it", async () => {
  const { context, printId } = await surveyedPrint();
  context.db.$client.prepare("update originals set captured_at = '2015-09-05T10:00:00'").run();
  const { id: older } = context.db.$client.prepare("select id from captures").get() as { id: number };
  const newer = measuredCapture(context.db, printId, {}, { capturedAt: "2025-09-13T10:00:00" });
  const file = await textOf(await reportOf(context, printId));
  expect(file).toContain("Front, from 5 September 2015 to 13 September 2025");
  expect(file).toContain("It has not been worked out yet.");
  const page = await (await createApp(context).request(`/prints/${printId}/condition-report`)).text();
  expect(page).toContain(`/prints/${printId}/change?side=front&amp;older=${older}&amp;newer=${newer}`);
});

test("a long caption stands whole below its photograph, and what follows stands below the caption", async () => {
  const caption = `${"seen by raking light from the left, ".repeat(13)}žofie's own last words`;
  const { context, printId } = await surveyedPrint({ caption });
  const report = await reportOf(context, printId);
  expect(await textOf(report)).toMatch(/žofie's own last words, added \d{4}/);
  const pages = await items(report);
  const downPt = (words: string) => {
    const page = pages.findIndex((ofPage) => ofPage.some(({ text }) => text.includes(words)));
    const item = pages[page]?.find(({ text }) => text.includes(words));
    return page * 842 + 842 - (item?.at[5] ?? Number.NaN);
  };
  expect(downPt("What to mind")).toBeGreaterThan(downPt("last words") + 8);
});

test("it is tagged for reading aloud, in a language, with its typefaces inside and the marks of PDF/A-2a", async () => {
  const { context, printId } = await surveyedPrint();
  const { bytes, pdf, pages } = await reportOf(context, printId);
  expect(await pdf.getMarkInfo()).toMatchObject({ Marked: true });
  const trees = JSON.stringify(await Promise.all(pages.map((page) => page.getStructTree())));
  for (const role of ["H1", "H2", "H3", "P", "Figure"]) expect(trees).toContain(`"role":"${role}"`);
  expect(trees).toContain("The front, with the places of findings 1 marked.");
  expect(trees).toContain("Raking light");
  const { info, metadata } = await pdf.getMetadata();
  expect(info).toMatchObject({ Title: expect.stringContaining("Νίκη στο λιμάνι"), Language: "en-GB" });
  expect(metadata?.get("pdfaid:part")).toBe("2");
  const raw = Buffer.from(bytes).toString("latin1");
  expect(raw.match(/\/FontFile2 /g)).toHaveLength(2);
  expect(raw.match(/\/BaseFont \/\w+\+NotoSans/g)?.length).toBeGreaterThanOrEqual(2);
  expect(raw).not.toContain("/Helvetica");
});

test("every page is numbered, and a long record goes on over several", async () => {
  const { context, printId } = await surveyedPrint();
  context.db.$client.prepare("update prints set notes = ? where id = ?").run("A line that goes on for a while. ".repeat(400), printId);
  const report = await reportOf(context, printId);
  const pages = await items(report);
  expect(pages.length).toBeGreaterThan(3);
  for (const [index, page] of pages.entries())
    expect(page.map(({ text }) => text).join("")).toContain(`page ${index + 1} of ${pages.length}`);
  const lowest = Math.min(...pages.flatMap((page) => page.filter(({ text }) => text.trim() !== "").map(({ at }) => at[5] as number)));
  expect(lowest).toBeGreaterThan(20);
});

test("a print that nobody has looked at, without capture, says so; letters of other scripts are marked and told", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001", { title: "נמל", processId: "chromogenic" });
  const report = await reportOf(context, printId);
  const text = await textOf(report);
  expect(text).toContain("Nobody has looked at its condition yet.");
  expect(text).toContain("Front: no picture.");
  expect(text).toContain("3 letters of a script that this file's typeface does not have are shown as a mark");
  expect(await pictures(report)).toEqual([]);
});

test("a print in the bin, and one that is not there, have no report", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  setPrintBinned(context.db, printId, "2026-01-01T00:00:00.000Z");
  const app = createApp(context);
  expect((await app.request(`/prints/${printId}/condition-report.pdf`)).status).toBe(404);
  expect((await app.request("/prints/99/condition-report.pdf")).status).toBe(404);
  expect((await app.request(`/prints/${printId}/condition-report`)).status).toBe(404);
});

test("the command writes the file, and leaves one that is there alone", async () => {
  const collection = emptyFolder();
  const context = openCollection(collection);
  keptPrint(context.db, "1978/001", { title: "Ferry" });
  context.close();
  const output = path.join(emptyFolder(), "report.pdf");
  const args = ["report", "1978/001", "--output", output, "--collection", collection];
  expect((await solander(args)).code).toBe(0);
  expect((await opened(readFileSync(output))).numPages).toBeGreaterThan(0);
  const again = await solander(args);
  expect(again.code).toBe(2);
  expect(again.told).toContain("There is a file");
  const { answer } = await solander([...args, "--overwrite", "--json"]);
  expect(JSON.parse(answer)).toEqual({ objectNumber: "1978/001", file: output, bytes: readFileSync(output).length });
  const unknown = await solander(["report", "1999", "--output", `${output}2`, "--collection", collection]);
  expect(unknown.code).toBe(2);
  expect(unknown.told).toContain("There is no print 1999");
  expect(existsSync(`${output}2`)).toBe(false);
});
