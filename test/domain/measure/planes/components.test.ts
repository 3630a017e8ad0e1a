import { expect, test } from "vitest";
import { areaOf } from "#domain/measure/lines.ts";
import { componentsOf } from "#domain/measure/planes/components.ts";

const SIZE = 80;
const BOX = { left: 100, top: 200, widthPx: SIZE, heightPx: SIZE };

/** Rectangles of a mask, each as left, top, width, height. */
function maskOf(...rectangles: readonly (readonly [number, number, number, number])[]): Uint8Array {
  const mask = new Uint8Array(SIZE * SIZE);
  for (const [left, top, width, height] of rectangles) {
    for (let y = top; y < top + height; y++) mask.fill(1, y * SIZE + left, y * SIZE + left + width);
  }
  return mask;
}

test("arms that meet only at the foot are one patch, filled between them", () => {
  const found = componentsOf(maskOf([10, 10, 10, 50], [40, 10, 10, 50], [10, 60, 40, 10]), BOX, 1, 100);
  expect(found).toHaveLength(1);
  expect(found[0]?.filledPx).toBe(40 * 60);
  expect(areaOf(found[0]?.hull ?? [])).toBe(40 * 60);
});

test("an arch is one patch, and so are two columns that begin in different rows and meet below", () => {
  expect(componentsOf(maskOf([10, 10, 40, 10], [10, 20, 10, 40], [40, 20, 10, 40]), BOX, 1, 100)).toHaveLength(1);
  const zigzag = maskOf([40, 10, 10, 50], [10, 20, 10, 30], [10, 50, 40, 10]);
  expect(componentsOf(zigzag, BOX, 1, 100)).toHaveLength(1);
});

test("patches apart from each other come from above, each where it lies; small ones are left out", () => {
  const found = componentsOf(maskOf([50, 8, 20, 20], [5, 40, 30, 25], [60, 60, 10, 10]), BOX, 1, 300);
  expect(found.map(({ filledPx }) => filledPx)).toEqual([400, 750]);
  const corners = found.map(({ hull }) => [Math.min(...hull.map(({ x }) => x)), Math.min(...hull.map(({ y }) => y))]);
  expect(corners).toEqual([
    [149.5, 207.5],
    [104.5, 239.5],
  ]);
});

test("a bridge narrower than twice what is cut away parts two patches, a broader one joins them", () => {
  const bridged = maskOf([10, 10, 20, 20], [45, 10, 20, 20], [30, 18, 15, 4]);
  expect(componentsOf(bridged, BOX, 3, 100)).toHaveLength(2);
  expect(componentsOf(bridged, BOX, 1, 100)).toHaveLength(1);
});
