import { expect, test } from "vitest";
import { outlinesInBasis, regionAround } from "#domain/capture/bed.ts";

const quad = (left: number, top: number, right: number, bottom: number, lean = 0) => ({
  topLeft: { x: left + lean, y: top },
  topRight: { x: right, y: top + lean },
  bottomRight: { x: right - lean, y: bottom },
  bottomLeft: { x: left, y: bottom - lean },
});
const frame = { left: 0, top: 0, width: 1000, height: 800 };

test("a print gets the box around it and three parts in a hundred on every side", () => {
  expect(regionAround(quad(100, 200, 300, 400, 5), frame)).toEqual({ left: 94, top: 194, width: 213, height: 213 });
});

test("the margin ends at the frame", () => {
  expect(regionAround(quad(0, 0, 999, 799), frame)).toEqual({ left: 0, top: 0, width: 1000, height: 800 });
  expect(regionAround(quad(-20, -20, 50, 50), frame)).toMatchObject({ left: 0, top: 0 });
});

test("a part of a part counts from the corner of the original", () => {
  expect(regionAround(quad(100, 200, 300, 400), { left: 500, top: 300, width: 400, height: 450 })).toMatchObject({ left: 594, top: 494 });
});

test("a basis without outlines, or one that is damaged, holds no prints", () => {
  expect(outlinesInBasis(null)).toEqual([]);
  expect(outlinesInBasis({})).toEqual([]);
  expect(outlinesInBasis({ outlines: [{ topLeft: 1 }] })).toEqual([]);
  expect(outlinesInBasis({ outlines: [quad(1, 2, 3, 4)], known: {} })).toHaveLength(1);
});
