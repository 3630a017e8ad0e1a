import { readFileSync } from "node:fs";
import sharp from "sharp";
import { expect, test } from "vitest";
import { cornersOf } from "#domain/measure/lines.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import { contextOf, pictureOf } from "../fixtures/pictures.ts";

const FOLDER = new URL("../fixtures/mounted-prints/", import.meta.url);

type Box = { left: number; top: number; right: number; bottom: number };
const truth = JSON.parse(readFileSync(new URL("rects.json", FOLDER), "utf8")) as { shape: { w: number }; rects: Box[] };

/** Intersection over union of two upright boxes. */
function overlap(a: Box, b: Box): number {
  const area = ({ left, top, right, bottom }: Box) => Math.max(0, right - left) * Math.max(0, bottom - top);
  const shared = area({
    left: Math.max(a.left, b.left),
    top: Math.max(a.top, b.top),
    right: Math.min(a.right, b.right),
    bottom: Math.min(a.bottom, b.bottom),
  });
  return shared / (area(a) + area(b) - shared);
}

test("the three prints on a board are found where the detector of danvk/oldnyc found them, in reading order", async () => {
  const { data, info } = await sharp(readFileSync(new URL("three-prints-on-a-board.jpg", FOLDER)))
    .raw()
    .toBuffer({ resolveWithObject: true });
  expect(info.channels).toBe(3);
  const outlines = findOutlines(pictureOf(new Uint8Array(data), info.width, info.height), contextOf());
  expect(outlines).toHaveLength(3);
  outlines.forEach(({ sheet }, index) => {
    const xs = cornersOf(sheet).map(({ x }) => x);
    const ys = cornersOf(sheet).map(({ y }) => y);
    const scale = truth.shape.w / info.width;
    const box = {
      left: Math.min(...xs) * scale,
      top: Math.min(...ys) * scale,
      right: Math.max(...xs) * scale,
      bottom: Math.max(...ys) * scale,
    };
    expect(overlap(box, truth.rects[index] as Box)).toBeGreaterThan(0.9);
  });
});
