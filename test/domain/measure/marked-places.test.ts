import { expect, test } from "vitest";
import { loopsInFrame, maskOfLoops } from "#domain/measure/marked-area.ts";
import { markedAreasOf } from "#domain/measure/marked-places.ts";
import type { Outline, Reading } from "#domain/measure/reading.ts";

const sides = { top: "seen", right: "seen", bottom: "seen", left: "seen" } as const;
const quad = (left: number, top: number, right: number, bottom: number) => ({
  topLeft: { x: left, y: top },
  topRight: { x: right, y: top },
  bottomRight: { x: right, y: bottom },
  bottomLeft: { x: left, y: bottom },
});
const outline: Outline = { sheet: quad(9.5, 9.5, 89.5, 69.5), image: quad(19.5, 19.5, 79.5, 59.5), cornerSpreadPx: 0.1, sides };
const frame = { widthPx: 100, heightPx: 80 };
const maskOf = (reading: Reading, on: Outline | null) => maskOfLoops(loopsInFrame(markedAreasOf(reading), on, frame), frame);
const glare = (of: "sheet" | "picture"): Reading => ({
  name: "glareAreaPercent",
  value: 25,
  reliability: "fair",
  detail: { of, places: [{ left: 0.5, top: 0, width: 0.5, height: 0.5, share: 0.25, mm: null }] },
});

test.each([
  ["picture", { left: 50, top: 20, right: 79, bottom: 39 }],
  ["sheet", { left: 50, top: 10, right: 89, bottom: 39 }],
] as const)("a place on the %s is white in the mask where it lies in the frame, and nothing else is", (of, box) => {
  const mask = maskOf(glare(of), outline);
  for (let y = 0; y < 80; y++)
    for (let x = 0; x < 100; x++) {
      const isIn = x >= box.left && x <= box.right && y >= box.top && y <= box.bottom;
      expect(mask[y * 100 + x], `${x}, ${y}`).toBe(isIn ? 255 : 0);
    }
});

test("what lies outside the frame is left out, and a reading without places has no area", () => {
  const beyond: Outline = { ...outline, sheet: quad(-50, -50, 140, 140), image: null };
  expect(maskOf(glare("sheet"), beyond).filter((value) => value === 255).length).toBeGreaterThan(0);
  expect(markedAreasOf({ name: "skewDegrees", value: 1, reliability: "firm" })).toEqual([]);
  expect(markedAreasOf({ name: "skewDegrees", absent: "no print" })).toEqual([]);
  expect(maskOf(glare("sheet"), null).every((value) => value === 0)).toBe(true);
});

test("the area itself is drawn where a reading knows it, not the boxes round it", () => {
  const loop = [
    { x: 0, y: 0 },
    { x: 1, y: 0 },
    { x: 0, y: 1 },
  ];
  const mask = maskOf({ ...glare("picture"), area: [{ of: "picture", loops: [loop] }] } as Reading, outline);
  expect(mask[22 * 100 + 22]).toBe(255);
  expect(mask[58 * 100 + 78]).toBe(0);
});
