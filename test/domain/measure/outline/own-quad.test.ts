import { expect, test } from "vitest";
import { homographyFromMm, project } from "#domain/measure/homography.ts";
import { ownQuad } from "#domain/measure/outline/own-quad.ts";
import type { Point, Quad } from "#domain/measure/picture.ts";

/** A sheet of 88 × 107 mm with its wide border below, as laid by `place` (mm of the sheet to px of the frame). */
function laid(place: (xMm: number, yMm: number) => Point) {
  const corners = (left: number, top: number, right: number, bottom: number) =>
    [place(left, top), place(right, top), place(right, bottom), place(left, bottom)] as const;
  return { sheet: asSeen(corners(0, 0, 88, 107)), image: asSeen(corners(5, 7, 83, 85)) };
}

/** Named by where they lie in the frame, as the outline is. */
function asSeen(corners: readonly Point[]): Quad {
  const by = (rank: (point: Point) => number) => [...corners].sort((a, b) => rank(a) - rank(b))[0] as Point;
  return {
    topLeft: by(({ x, y }) => x + y),
    topRight: by(({ x, y }) => y - x),
    bottomRight: by(({ x, y }) => -x - y),
    bottomLeft: by(({ x, y }) => x - y),
  };
}

const SIZE = { widthMm: 88, heightMm: 107 };

test.each([
  ["upright", (x: number, y: number) => ({ x: 100 + 10 * x, y: 50 + 10 * y })],
  ["upside down", (x: number, y: number) => ({ x: 1000 - 10 * x, y: 1200 - 10 * y })],
  ["a quarter turn clockwise", (x: number, y: number) => ({ x: 1200 - 10 * y, y: 50 + 10 * x })],
  ["a quarter turn back", (x: number, y: number) => ({ x: 60 + 10 * y, y: 1000 - 10 * x })],
  ["skewed by three degrees", (x: number, y: number) => ({ x: 200 + 10 * x - 0.52 * y, y: 90 + 0.52 * x + 10 * y })],
])("a place on a print with one wide border is found again however it lies: %s", (_case, place) => {
  const at = project(homographyFromMm(88, 107, ownQuad(laid(place), SIZE)), 20, 90);
  const truth = place(20, 90);
  expect(Math.hypot(at.x - truth.x, at.y - truth.y)).toBeLessThan(1e-6);
});

test("a print without borders on its side is turned by the proportions of its size, a square one stays as seen", () => {
  const sheet = { topLeft: { x: 0, y: 0 }, topRight: { x: 150, y: 0 }, bottomRight: { x: 150, y: 100 }, bottomLeft: { x: 0, y: 100 } };
  const turned = ownQuad({ sheet, image: null }, { widthMm: 100, heightMm: 150 });
  expect(turned.topLeft).toEqual({ x: 0, y: 100 });
  expect(turned.topRight).toEqual({ x: 0, y: 0 });
  expect(ownQuad({ sheet, image: null }, { widthMm: 150, heightMm: 100 })).toEqual(sheet);
});
