import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { expect, onTestFinished, test } from "vitest";
import { surveyInput } from "#domain/condition/survey-input.ts";
import { recordSurvey } from "#server/actions/record-survey.ts";
import { serve } from "#server/serve.ts";
import { aPrintWithASheet } from "../fixtures/print-with-sheet.ts";
import { launchBrowser } from "./browser.ts";

test("the report's page comes onto A4 and Letter without the ways to elsewhere, its pages numbered and nothing beyond the margins", async () => {
  const { context, printId } = await aPrintWithASheet();
  const found = ["foxing", "scratch", "tear"].map((term) => ({ term, severity: "2", activity: "stable", regions: "20,30 30,40" }));
  const input = surveyInput.parse({ surveyedOn: "2026-01-05", grade: "", note: "", rejudged: [], found });
  expect(recordSurvey(context, { printId, input }).ok).toBe(true);
  const serving = await serve(context, { port: 0 });
  if (!serving.ok) throw new Error(serving.refusals[0]?.happened);
  const browser = await launchBrowser();
  onTestFinished(async () => {
    await browser.close();
    await serving.value.stop();
  });
  const page = await browser.newPage();
  await page.goto(`${serving.value.url}/prints/${printId}/condition-report`);
  // mm of ISO 216 and of ANSI/ASME Y14.1 A
  for (const [format, widthMm, heightMm] of [
    ["A4", 210, 297],
    ["Letter", 215.9, 279.4],
  ] as const) {
    const task = getDocument({ data: new Uint8Array(await page.pdf({ format })), verbosity: 0 });
    onTestFinished(() => task.destroy());
    const pdf = await task.promise;
    const sheets = await Promise.all(Array.from({ length: pdf.numPages }, (_, index) => pdf.getPage(index + 1)));
    for (const [index, sheet] of sheets.entries()) {
      const [, , width = 0, height = 0] = sheet.view;
      expect(Math.abs((width / 72) * 25.4 - widthMm)).toBeLessThan(0.5);
      expect(Math.abs((height / 72) * 25.4 - heightMm)).toBeLessThan(0.5);
      const { items } = await sheet.getTextContent();
      const words = items.flatMap((item) => ("str" in item && item.str.trim() !== "" ? [item] : []));
      const text = words.map(({ str }) => str).join(" ");
      expect(text).toContain(`Page ${index + 1} of ${pdf.numPages}`);
      for (const elsewhere of ["Back to the print", "The same as PDF", "Recapture", "Fixity"]) expect(text).not.toContain(elsewhere);
      if (index === 0) for (const heading of ["Pictures", "Record", "Condition"]) expect(text).toContain(heading);
      // 10 mm of every sheet's edge stay free
      const free = (10 / 25.4) * 72;
      for (const { transform, width: wide } of words) {
        expect(transform[4] as number).toBeGreaterThan(free);
        expect((transform[4] as number) + wide).toBeLessThan(width - free);
      }
    }
  }
});
