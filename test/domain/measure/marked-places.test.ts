import { expect, test } from "vitest";
import { maskOfPlaces } from "#domain/measure/marked-places.ts";
import type { Outline, Reading } from "#domain/measure/reading.ts";

const sides = { top: "seen", right: "seen", bottom: "seen", left: "seen" } as const;
const quad = (left: number, top: number, right: number, bottom: number) => ({
  topLeft: { x: left, y: top },
  topRight: { x: right, y: top },
  bottomRight: { x: right, y: bottom },
  bottomLeft: { x: left, y: bottom },
});
const outline: Outline = { sheet: quad(10, 10, 90, 70), image: quad(20, 20, 80, 60), cornerSpreadPx: 0.1, sides };
const glare = (of: "sheet" | "picture"): Reading => ({
  name: "glareAreaPercent",
  value: 25,
  reliability: "fair",
  detail: { of, places: [{ left: 0.5, top: 0, width: 0.5, height: 0.5, share: 0.25, mm: null }] },
});

test.each([
  ["picture", { left: 50, top: 20, right: 80, bottom: 40 }],
  ["sheet", { left: 50, top: 10, right: 90, bottom: 40 }],
] as const)("a place on the %s is white in the mask where it lies in the frame, and nothing else is", (of, box) => {
  const mask = maskOfPlaces(glare(of), outline, 100, 80) as Uint8Array;
  for (let y = 0; y < 80; y++)
    for (let x = 0; x < 100; x++) {
      const isIn = x >= box.left && x <= box.right && y >= box.top && y <= box.bottom;
      expect(mask[y * 100 + x], `${x}, ${y}`).toBe(isIn ? 255 : 0);
    }
});

test("what lies outside the frame is left out, and a reading without places has no mask", () => {
  const beyond: Outline = { ...outline, sheet: quad(-50, -50, 140, 140), image: null };
  expect(maskOfPlaces(glare("sheet"), beyond, 100, 80)?.filter((value) => value === 255).length).toBeGreaterThan(0);
  expect(maskOfPlaces({ name: "skewDegrees", value: 1, reliability: "firm" }, outline, 100, 80)).toBe(null);
  expect(maskOfPlaces({ name: "skewDegrees", absent: "no print" }, outline, 100, 80)).toBe(null);
});
