import { expect, test } from "vitest";
import { compareCaptures } from "#domain/measure/compare-captures.ts";
import { shareOfSheet } from "#domain/measure/geometry/share-of-sheet.ts";
import { LEAST_SHARE } from "#domain/measure/light/glare-together.ts";
import { FORMATS } from "#domain/print/format.ts";
import { captureSheet, SMALL } from "../../../fixtures/captured-sheet.ts";
import { drawGrid } from "../../../fixtures/print-grids.ts";
import { presentOf } from "../../../fixtures/readings.ts";

const { widthMm, heightMm, border } = SMALL;
const TRUE_SHARE = ((widthMm - border.left - border.right) * (heightMm - border.top - border.bottom)) / (widthMm * heightMm);
const UNKNOWN = { sheetWidthMm: null, sheetHeightMm: null, imageWidthMm: null, imageHeightMm: null };
const drawn = (options: Parameters<typeof captureSheet>[0] = {}) => {
  const { outline, context, picture } = captureSheet({ ppi: 60, seed: 2, known: UNKNOWN, ...options });
  return { outline, context, picture };
};

test("of a sheet seen whole it is the share on the print's own plane, however aslant the camera stood", () => {
  for (const keystoneDown of [0, 0.2]) {
    const { outline, context, picture } = drawn({ keystoneDown });
    expect(shareOfSheet(outline, context, picture)).toBeCloseTo(TRUE_SHARE, 2);
  }
});

test("where a side of the sheet was not seen the catalogued sizes tell it, and without them it is not known", () => {
  const { outline, context, picture } = drawn();
  const cut = { ...outline, sides: { ...outline.sides, bottom: "assumed" as const } };
  expect(shareOfSheet(cut, context, picture)).toBeNull();
  const sizes = { sheetWidthMm: 44, sheetHeightMm: 52, imageWidthMm: 34, imageHeightMm: 38 };
  expect(shareOfSheet(cut, { ...context, ...sizes }, picture)).toBeCloseTo(TRUE_SHARE, 6);
  // a border that was not told apart takes nothing of a whole sheet, and an unknown share of another
  expect(shareOfSheet({ ...outline, image: null }, context, picture)).toBe(1);
  expect(shareOfSheet({ ...cut, image: null }, context, picture)).toBeNull();
});

test("no known format leaves its picture less of its sheet than what is taken where the share is not known", () => {
  const shares = FORMATS.flatMap(({ imageWidthMm, imageHeightMm, sheetWidthMm, sheetHeightMm }) =>
    imageWidthMm && imageHeightMm ? [(imageWidthMm * imageHeightMm) / (sheetWidthMm * sheetHeightMm)] : [],
  );
  expect(shares.length).toBeGreaterThan(10);
  expect(Math.min(...shares)).toBeGreaterThanOrEqual(LEAST_SHARE);
});

test("glare by comparison is a share of the print: of the picture times that, and where it is not known times the least, which is said", async () => {
  const glare = [{ xMm: 20, yMm: 22, sigmaMm: 4, peak: 0.1 }];
  const read = async (shareOfSheet: number | null) => {
    const grids = [drawGrid({ seed: 24, glare, shareOfSheet }), drawGrid({ seed: 24, noise: 0.6, shareOfSheet })];
    const [shining] = await compareCaptures(grids.map((grid, captureId) => ({ captureId, grid })));
    return presentOf(shining?.readings ?? [], "glareAreaPercent");
  };
  const [whole, half, unknown] = [await read(1), await read(0.5), await read(null)];
  expect(whole.value).toBeGreaterThan(5);
  expect(half.value).toBeCloseTo(whole.value / 2, 6);
  expect(half.note).not.toContain("is not known");
  expect(unknown.value).toBeCloseTo(whole.value * LEAST_SHARE, 6);
  expect(unknown.note).toContain("How much of its sheet the picture takes is not known");
});
