import { expect, test } from "vitest";
import { loopsInFrame, markedArea, maskOfLoops, patchLoops } from "#domain/measure/marked-area.ts";
import { contoursOf } from "#domain/measure/planes/mask-contours.ts";
import { random } from "../../fixtures/picture-scenes.ts";

const maskFrom = (rows: readonly string[]) => Uint8Array.from(rows.join(""), (letter) => (letter === "#" ? 1 : 0));

test("a block runs clockwise round its four corners", () => {
  expect(contoursOf(maskFrom(["....", ".##.", ".##.", "...."]), 4, 4)).toEqual([
    [
      { x: 1, y: 1 },
      { x: 3, y: 1 },
      { x: 3, y: 3 },
      { x: 1, y: 3 },
    ],
  ]);
});

test("a ring is one patch with a hole in it", () => {
  const loops = contoursOf(maskFrom(["###", "#.#", "###"]), 3, 3);
  expect(loops).toHaveLength(2);
  expect(patchLoops(loops)).toHaveLength(1);
});

test.each([1, 2, 3, 4])("filling the contours of scattered cells gives the cells again (seed %i)", (seed) => {
  const [columns, rows] = [17, 11];
  const mask = Uint8Array.from({ length: columns * rows }, (_, at) => (random(at, 1, seed) < 0.45 ? 1 : 0));
  const frame = { widthPx: columns, heightPx: rows };
  const filled = maskOfLoops(loopsInFrame([markedArea("frame", mask, columns, rows)], null, frame), frame);
  expect(filled.map((value) => value / 255)).toEqual(mask);
});

test("a mask with too many edges to draw covers all that it covered, and little more", () => {
  const side = 301;
  const mask = Uint8Array.from({ length: side * side }, (_, at) => (at % side < side / 2 && random(at, 1, 9) < 0.3 ? 1 : 0));
  const frame = { widthPx: side, heightPx: side };
  const area = markedArea("frame", mask, side, side);
  expect(area.loops.reduce((sum, loop) => sum + loop.length, 0)).toBeLessThanOrEqual(6000);
  const filled = maskOfLoops(loopsInFrame([area], null, frame), frame);
  expect(filled.filter((value, at) => value === 0 && mask[at] === 1)).toHaveLength(0);
  expect(filled.filter((value, at) => value === 255 && at % side > 0.55 * side)).toHaveLength(0);
});

test("an area of a sheet is nowhere where no sheet was found", () => {
  expect(loopsInFrame([markedArea("sheet", maskFrom(["#"]), 1, 1)], null, { widthPx: 10, heightPx: 10 })).toEqual([]);
});
