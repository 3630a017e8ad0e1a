import { expect, test } from "vitest";
import { margin } from "#domain/measure/geometry/margin.ts";
import type { Outline } from "#domain/measure/reading.ts";
import { outlineOf, quad } from "../../../fixtures/outlines.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";

const picture = pictureOf(new Uint8Array(200 * 300 * 3), 200, 300);
const SIZED = { sheetWidthMm: 40, sheetHeightMm: 60 };
const read = (outline: Outline | null, known = {}) => margin(picture, outline, contextOf(known))[0];

test("the narrowest of four strips of ground is told in mm of the print, with each beside it", () => {
  // 160 px are 40 mm: 4 px a mm. From the frame's own edge at -0.5 to 19.5 are 20 px.
  expect(read(outlineOf(quad(19.5, 11.5, 179.5, 251.5)), SIZED)).toMatchObject({
    value: expect.closeTo(3, 9),
    reliability: "firm",
    detail: { topMm: expect.closeTo(3, 9), rightMm: expect.closeTo(5, 9), bottomMm: expect.closeTo(12, 9), leftMm: expect.closeTo(5, 9) },
  });
});

test("a print turned in the frame is as near as its nearest corner", () => {
  const sheet = { topLeft: { x: 30, y: 10 }, topRight: { x: 186, y: 45 }, bottomRight: { x: 140, y: 270 }, bottomLeft: { x: 3.5, y: 240 } };
  const [left, right] = [read(outlineOf(sheet), SIZED), read(outlineOf(sheet), { sheetWidthMm: 80, sheetHeightMm: 120 })];
  expect(left).toMatchObject({ detail: { leftMm: expect.any(Number) } });
  expect(
    left && "value" in left && right && "value" in right ? right.value / left.value : null,
    "twice the print, twice the mm",
  ).toBeCloseTo(2, 9);
});

test("a corner unsure by 1 px, a size known to 1 mm in 40, and the scale of such corners make up the spread", () => {
  const known = { ...SIZED, sheetToleranceMm: 1 };
  const [reading] = margin(picture, outlineOf(quad(19.5, 39.5, 179.5, 279.5), { cornerSpreadPx: 1 }), contextOf(known));
  // 1 px is 0.25 mm; of 5 mm, an eighth of the shorter side, the scale leaves 2 × 0.25 / 8 and the size 5 / 40 / √3
  expect(reading).toMatchObject({ value: expect.closeTo(5, 9) });
  expect(reading).toHaveProperty("spread", expect.closeTo(Math.hypot(0.25, (2 * 0.25) / 8, 5 / 40 / Math.sqrt(3)), 9));
});

test("where the frame cuts the print nothing is left, whatever its size", () => {
  const sides = { top: "cut-off", right: "seen", bottom: "seen", left: "seen" } as const;
  expect(read(outlineOf(quad(20, -0.5, 180, 280), { sides }))).toMatchObject({ value: 0, detail: { topMm: 0, leftMm: null } });
});

test("a file cropped to the print shows no ground, and says so", () => {
  const sides = { top: "assumed", right: "assumed", bottom: "assumed", left: "assumed" } as const;
  expect(read(outlineOf(quad(-0.5, -0.5, 199.5, 299.5), { sides }), SIZED)).toMatchObject({
    value: 0,
    reliability: "fair",
    note: expect.stringContaining("cropped"),
  });
});

test("without a size or a print it is absent, never nought", () => {
  expect(read(outlineOf(quad(20, 20, 180, 280)))).toEqual({ name: "marginMm", absent: expect.stringContaining("size of the print") });
  expect(read(null, SIZED)).toHaveProperty("absent");
});
