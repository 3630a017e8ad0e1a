import { expect, test } from "vitest";
import { cornersOf } from "#domain/measure/lines.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import type { Picture, Point } from "#domain/measure/picture.ts";
import { captureSheet } from "../../../fixtures/captured-sheet.ts";
import { pictureOf } from "../../../fixtures/pictures.ts";

const { picture, context } = captureSheet({
  background: "wood-grain",
  bedPxPerMm: 8,
  turnDeg: 4,
  keystoneDown: 0.03,
  noise: 0.8,
  seed: 612,
});
const found = (of: Picture): readonly Point[] => {
  const [outline] = findOutlines(of, context);
  if (!outline) throw new Error("no print was found");
  return cornersOf(outline.sheet);
};
const before = found(picture);

/** Reads every pixel of a new picture from a place of the old one. */
function rearranged(widthPx: number, heightPx: number, from: (x: number, y: number) => readonly [number, number], gain = 1): Picture {
  const codes = new Uint8Array(widthPx * heightPx * 3);
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      const [fromX, fromY] = from(x, y);
      for (let channel = 0; channel < 3; channel++)
        codes[(y * widthPx + x) * 3 + channel] = Math.round(
          gain * (picture.codes[(fromY * picture.widthPx + fromX) * 3 + channel] as number),
        );
    }
  }
  return pictureOf(codes, widthPx, heightPx);
}

const farthest = (one: readonly Point[], other: readonly Point[]) =>
  Math.max(...one.map(({ x, y }, index) => Math.hypot(x - (other[index]?.x ?? 0), y - (other[index]?.y ?? 0))));

test("turned by a quarter, the corners turn with it", () => {
  const { widthPx, heightPx } = picture;
  // Clockwise: what was at the left is on top, and the old bottom left is the new top left.
  const turned = found(rearranged(heightPx, widthPx, (x, y) => [y, heightPx - 1 - x]));
  const expected = [before[3], before[0], before[1], before[2]].map((corner) => ({
    x: heightPx - 1 - (corner?.y ?? 0),
    y: corner?.x ?? 0,
  }));
  expect(farthest(turned, expected)).toBeLessThan(0.15);
});

test("cropped outside the print, the corners stay where they were", () => {
  const cut = 23;
  const cropped = found(rearranged(picture.widthPx - 2 * cut, picture.heightPx - cut, (x, y) => [x + cut, y + cut]));
  expect(
    farthest(
      cropped,
      before.map(({ x, y }) => ({ x: x - cut, y: y - cut })),
    ),
  ).toBeLessThan(0.15);
});

test("darker by a known factor, the corners stay where they were", () => {
  expect(farthest(found(rearranged(picture.widthPx, picture.heightPx, (x, y) => [x, y], 0.7)), before)).toBeLessThan(0.15);
});

test("turned upside down, the corners turn with it", () => {
  const { widthPx, heightPx } = picture;
  const turned = found(rearranged(widthPx, heightPx, (x, y) => [widthPx - 1 - x, heightPx - 1 - y]));
  const expected = [before[2], before[3], before[0], before[1]].map((corner) => ({
    x: widthPx - 1 - (corner?.x ?? 0),
    y: heightPx - 1 - (corner?.y ?? 0),
  }));
  expect(farthest(turned, expected)).toBeLessThan(0.15);
});

test("mirrored, the corners are mirrored", () => {
  const { widthPx, heightPx } = picture;
  const mirrored = found(rearranged(widthPx, heightPx, (x, y) => [widthPx - 1 - x, y]));
  const expected = [before[1], before[0], before[3], before[2]].map((corner) => ({ x: widthPx - 1 - (corner?.x ?? 0), y: corner?.y ?? 0 }));
  expect(farthest(mirrored, expected)).toBeLessThan(0.15);
});
