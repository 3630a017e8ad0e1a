import path from "node:path";
import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { type PointMm, readRegions } from "#domain/condition/marked-region.ts";
import { termsFor } from "#domain/condition/terms.ts";
import { dueLines } from "#drizzle/queries/due.ts";
import { photographsOfPrint } from "#drizzle/queries/finding-photographs.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { findPrintByNumber } from "#drizzle/queries/prints.ts";
import { linesOfRound, listRounds } from "#drizzle/queries/rounds.ts";
import { lastSurvey } from "#drizzle/queries/surveys.ts";
import { listWorkSheets, rowsOfWorkSheet } from "#drizzle/queries/work-sheets.ts";
import { fillDemoCollection } from "#server/actions/fill-demo-collection.ts";
import { fillDemoWorkSheet } from "#server/actions/fill-demo-work-sheet.ts";
import { EARLY_PRINTS } from "../../demo-collection/family/early.ts";
import { INSTANT_PRINTS } from "../../demo-collection/family/instant.ts";
import { LABORATORY_PRINTS } from "../../demo-collection/family/laboratory.ts";
import { DEMO_PHOTOGRAPHS } from "../../demo-collection/finding-photographs.ts";
import type { Mark } from "../../demo-collection/print-drawing.ts";
import { DEMO_CAPTURES, readDemoManifest } from "../../demo-collection/read-manifest.ts";
import { DEMO_SURVEYS } from "../../demo-collection/surveys.ts";
import { emptyCollection } from "../fixtures/collection.ts";

const manifest = readDemoManifest();
const surveyed = [...new Set(DEMO_SURVEYS.map(({ objectNumber }) => objectNumber))];

/** The box round all places marked for a print. */
function markedBox(objectNumber: string, terms: readonly string[]) {
  const regions = DEMO_SURVEYS.filter((survey) => survey.objectNumber === objectNumber)
    .flatMap(({ findings }) => findings)
    .filter(({ term }) => terms.includes(term))
    .map(({ regions = "" }) => readRegions(regions))
    .flatMap((read) => ("regions" in read ? read.regions : []));
  const points: readonly PointMm[] = regions.flat();
  const [xs, ys] = [points.map(({ xMm }) => xMm), points.map(({ yMm }) => yMm)];
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

describe("the demo's surveys", () => {
  test.each(DEMO_SURVEYS)("of $objectNumber on $surveyedOn name what can befall its process", ({ objectNumber, findings }) => {
    const processId = manifest.prints.find((print) => print.objectNumber === objectNumber)?.fields.processId ?? "";
    const known = termsFor(processId).map(({ id }) => id);
    for (const { term } of findings) expect(known).toContain(term);
  });

  const drawn = [...EARLY_PRINTS, ...INSTANT_PRINTS, ...LABORATORY_PRINTS].flatMap(({ objectNumber, drawing }) =>
    (drawing.marks ?? []).filter(({ kind }) => kind !== "foxing").map((mark) => ({ objectNumber, kind: mark.kind, mark })),
  );
  test("cover every print that was drawn with a stain, a scratch or a crease", () => {
    expect(drawn.length).toBeGreaterThan(5);
    expect(drawn.filter(({ objectNumber }) => !surveyed.includes(objectNumber))).toEqual([]);
  });

  test.each(drawn)("mark the $kind of $objectNumber where it was drawn", ({ objectNumber, mark }) => {
    const { terms, box } = drawnBox(mark);
    const marked = markedBox(objectNumber, terms);
    // nothing of it lies more than a rim outside, and the mark is not just the whole sheet
    expect(marked.left).toBeLessThanOrEqual(box.left + 0.5);
    expect(marked.right).toBeGreaterThanOrEqual(box.right - 0.5);
    expect(marked.top).toBeLessThanOrEqual(box.top + 0.5);
    expect(marked.bottom).toBeGreaterThanOrEqual(box.bottom - 0.5);
    expect(marked.right - marked.left).toBeLessThan(box.right - box.left + 8);
    expect(marked.bottom - marked.top).toBeLessThan(box.bottom - box.top + 8);
  });

  test("tell of a stain that the scan of 2016 has not and the scan of 2024 has", async () => {
    const blueLost = async (file: string) => {
      const [sheet] = manifest.captures.find((capture) => capture.file === file)?.truth ?? [];
      if (!sheet) throw new Error(`no truth of ${file}`);
      const [topLeft, topRight, , bottomLeft] = sheet.sheetPx;
      const { data, info } = await sharp(path.join(DEMO_CAPTURES, file)).raw().toBuffer({ resolveWithObject: true });
      const blueAt = (xMm: number, yMm: number) => {
        const [s, t] = [xMm / sheet.sheetWidthMm, yMm / sheet.sheetHeightMm];
        const x = Math.round(topLeft.x + s * (topRight.x - topLeft.x) + t * (bottomLeft.x - topLeft.x));
        const y = Math.round(topLeft.y + s * (topRight.y - topLeft.y) + t * (bottomLeft.y - topLeft.y));
        let sum = 0;
        for (let dy = -3; dy <= 3; dy++)
          for (let dx = -3; dx <= 3; dx++) sum += data[((y + dy) * info.width + x + dx) * info.channels + 2] ?? 0;
        return sum / 49;
      };
      // the border below the picture, beside the stain and in it
      return blueAt(30, 86.5) - blueAt(65, 86.5);
    };
    expect(await blueLost("1972.002.01_flatbed-2.jpg")).toBeGreaterThan(15);
    expect(Math.abs(await blueLost("1972.002.01_flatbed-1.jpg"))).toBeLessThan(6);
  });

  test("become history, something due, something gone and a round that is not through, once however often it is filled", async () => {
    const context = emptyCollection();
    const stop = new Error("stopped by the test");
    for (let run = 0; run < 2; run++)
      await expect(
        fillDemoCollection(context, () => {
          throw stop;
        }),
      ).rejects.toBe(stop);
    const idOf = (number: string) => findPrintByNumber(context.db, number)?.id ?? 0;
    const ids = surveyed.map(idOf);
    const looks = context.db.$client.prepare("select count(*) from surveys").pluck().get();
    const [round, ...others] = listRounds(context.db);
    expect(others).toEqual([]);
    const lines = linesOfRound(context.db, round?.id ?? 0);
    const inRound = lines.filter(({ surveyId }) => surveyId !== null).length;
    expect(inRound).toBeGreaterThan(0);
    expect(inRound).toBeLessThan(lines.length);
    expect(looks).toBe(DEMO_SURVEYS.length + inRound);
    const photographed = DEMO_PHOTOGRAPHS.map(({ objectNumber, term, caption }) => {
      const kept = [...photographsOfPrint(context.db, idOf(objectNumber)).values()].flat();
      return { term, kept: kept.filter((photograph) => photograph.caption === caption).length };
    });
    expect(photographed.filter(({ kept }) => kept !== 1)).toEqual([]);
    const standing = latestFindings(context.db, ids);
    const stain = standing.get(idOf("1972.002.01"))?.find(({ term }) => term === "stain");
    expect(stain).toMatchObject({ change: "worse", severity: 2, activity: "active" });
    expect(standing.get(idOf("1896.001.01"))?.filter(({ term, severity }) => term === "dirt" && severity > 0)).toEqual([]);
    expect(lastSurvey(context.db, idOf("1979.001.04"))?.grade).toBe("poor");
    const due = dueLines(context.db, { placeId: null }).filter(({ dueOn }) => dueOn <= "2026-11-01");
    expect(due.map(({ objectNumber }) => objectNumber)).toEqual(expect.arrayContaining(["1972.002.01", "1978.004.12", "1979.001.04"]));
    expect(due.map(({ objectNumber }) => objectNumber)).not.toContain("1974.004.01");

    // nothing is captured yet: what means most of the shelf comes onto the sheet, once, and nothing of the gallery
    for (let run = 0; run < 2; run++) fillDemoWorkSheet(context);
    const [sheet, ...further] = listWorkSheets(context.db);
    expect(further).toEqual([]);
    const rows = rowsOfWorkSheet(context.db, sheet?.id ?? 0);
    expect(rows).toHaveLength(12);
    expect(rows.filter(({ placePath }) => !placePath.includes("Second shelf"))).toEqual([]);
    // need 4 × fair 2 × active 3 × climate 3 × significance 5 stands before 4 × poor 3 × active 3 × climate 3 × not judged 3
    expect(rows.slice(0, 2).map(({ objectNumber, priority }) => [objectNumber, priority.score])).toEqual([
      ["1978.004.12", 360],
      ["1979.001.04", 324],
    ]);
  });
});

function drawnBox(mark: Mark) {
  if (mark.kind === "stain") {
    const [x, y] = mark.atMm;
    const r = mark.radiusMm;
    return { terms: ["stain", "tideline"], box: { left: x - r, right: x + r, top: y - r, bottom: y + r } };
  }
  if (mark.kind === "foxing") throw new Error("foxing has no one place");
  const [[x1, y1], [x2, y2]] = [mark.fromMm, mark.toMm];
  return {
    terms: [mark.kind],
    box: { left: Math.min(x1, x2), right: Math.max(x1, x2), top: Math.min(y1, y2), bottom: Math.max(y1, y2) },
  };
}
