import { describe, expect, test } from "vitest";
import { makeGrid } from "#domain/measure/laying/print-grid.ts";
import { outlineOf, quad } from "../../../fixtures/outlines.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";

/** White left half, black right half, white again below row 200: codes 255 and 0. */
function halves(widthPx: number, heightPx: number) {
  const codes = new Uint8Array(widthPx * heightPx * 3);
  for (let at = 0; at < widthPx * heightPx; at++) codes.fill(at % widthPx < widthPx / 2 ? 255 : 0, at * 3, at * 3 + 3);
  return pictureOf(codes, widthPx, heightPx);
}

describe("the straightened grid of a print", () => {
  test("has four cells a millimetre of the picture area, whatever the capture's own sampling", () => {
    const outline = outlineOf(quad(-0.5, -0.5, 599.5, 599.5), { image: quad(49.5, 49.5, 549.5, 549.5) });
    const grid = makeGrid(
      halves(600, 600),
      outline,
      contextOf({ sheetWidthMm: 60, sheetHeightMm: 60, imageWidthMm: 50, imageHeightMm: 50 }),
    );
    expect(grid).toMatchObject({ widthPx: 200, heightPx: 200, pxPerMm: 4 });
    expect(grid?.data).toHaveLength(200 * 200);
  });

  test("takes the picture's size from the sheet where a ruler was laid on the sheet alone, whichever way it lies", () => {
    const outline = outlineOf(quad(49.5, 99.5, 549.5, 499.5), { image: quad(99.5, 149.5, 399.5, 449.5) });
    const sizes = { sheetWidthMm: 80, sheetHeightMm: 100 };
    expect(makeGrid(halves(600, 600), outline, contextOf(sizes))).toMatchObject({ widthPx: 240, heightPx: 240, pxPerMm: 4 });
  });

  test("takes no size from a sheet of which a side was only assumed or reaches out of the frame, or whose proportions are others", () => {
    const sheet = quad(49.5, 99.5, 549.5, 499.5);
    const image = quad(99.5, 149.5, 399.5, 449.5);
    const sizes = contextOf({ sheetWidthMm: 100, sheetHeightMm: 80 });
    for (const top of ["assumed", "cut-off"] as const) {
      const sides = { top, right: "seen", bottom: "seen", left: "seen" } as const;
      expect(makeGrid(halves(600, 600), outlineOf(sheet, { image, sides }), sizes)?.pxPerMm).toBeNull();
    }
    const square = contextOf({ sheetWidthMm: 100, sheetHeightMm: 100 });
    expect(makeGrid(halves(600, 600), outlineOf(sheet, { image }), square)?.pxPerMm).toBeNull();
  });

  test("has 400 cells along the longer side where no size is known, and says so", () => {
    const grid = makeGrid(halves(600, 600), outlineOf(quad(-0.5, -0.5, 599.5, 299.5)), contextOf());
    expect(grid).toMatchObject({ widthPx: 400, heightPx: 200, pxPerMm: null });
  });

  test("is no larger than 1,200 cells a side: a sheet of 508 × 610 mm is made coarser", () => {
    const grid = makeGrid(halves(200, 240), outlineOf(quad(0, 0, 190, 228)), contextOf({ sheetWidthMm: 508, sheetHeightMm: 610 }));
    expect(Math.max(grid?.widthPx ?? 0, grid?.heightPx ?? 0)).toBe(1200);
  });

  test("keeps linear light in its place: white at the left is 1, black at the right 0", () => {
    const grid = makeGrid(halves(600, 600), outlineOf(quad(-0.5, -0.5, 599.5, 599.5)), contextOf({ sheetWidthMm: 50, sheetHeightMm: 50 }));
    expect(grid?.data[100 * 200 + 20]).toBeCloseTo(1, 4);
    expect(grid?.data[100 * 200 + 180]).toBeCloseTo(0, 4);
  });

  test("averages detail finer than a cell instead of making a pattern of it: stripes of one pixel turn half grey", () => {
    const codes = Uint8Array.from({ length: 800 * 800 * 3 }, (_, index) => (Math.floor(index / 3) % 2 ? 255 : 0));
    const grid = makeGrid(
      pictureOf(codes, 800, 800),
      outlineOf(quad(-0.5, -0.5, 799.5, 799.5)),
      contextOf({ sheetWidthMm: 50, sheetHeightMm: 50 }),
    );
    const middle = Array.from({ length: 100 }, (_, column) => grid?.data[100 * 200 + 50 + column] as number);
    for (const value of middle) expect(value).toBeCloseTo(0.5, 1);
  });

  test("straightens: the corner of a turned print is the corner of its grid", () => {
    const codes = new Uint8Array(300 * 300 * 3);
    // A bright dot at the top right corner of the quad, (250, 60).
    for (let y = 56; y <= 66; y++) codes.fill(255, (y * 300 + 240) * 3, (y * 300 + 252) * 3);
    const turned = {
      topLeft: { x: 50, y: 40 },
      topRight: { x: 252, y: 55 },
      bottomRight: { x: 240, y: 260 },
      bottomLeft: { x: 40, y: 240 },
    };
    const grid = makeGrid(pictureOf(codes, 300, 300), outlineOf(turned), contextOf({ sheetWidthMm: 50, sheetHeightMm: 50 }));
    expect(grid?.data[3 * 200 + 196]).toBeGreaterThan(0.9);
    expect(grid?.data[3 * 200 + 3]).toBe(0);
  });

  test("of an outline of a few pixels there is none", () => {
    expect(makeGrid(halves(20, 20), outlineOf(quad(2, 2, 5, 5)), contextOf())).toBeNull();
  });
});
