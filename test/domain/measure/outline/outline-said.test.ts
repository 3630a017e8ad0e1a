import { expect, test } from "vitest";
import { cornersOf } from "#domain/measure/lines.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import { captureSheet } from "../../../fixtures/captured-sheet.ts";

test("a sheet that a person set stays as it was said, and the picture is found inside it", () => {
  const { picture, outline, context } = captureSheet({ seed: 71, turnDeg: 1 });
  // the person is off by a pixel, and is believed all the same
  const shifted = { ...outline.sheet, topLeft: { x: outline.sheet.topLeft.x + 1, y: outline.sheet.topLeft.y - 1 } };
  const [said, ...others] = findOutlines(picture, { ...context, saidSheet: shifted });
  expect(others).toEqual([]);
  expect(said).toMatchObject({ sheet: shifted, isSaid: true });
  const [found, truth] = [said?.image, outline.image];
  if (!found || !truth) throw new Error("no picture");
  cornersOf(found).forEach((corner, index) => {
    const at = cornersOf(truth)[index] ?? { x: 0, y: 0 };
    expect(Math.hypot(corner.x - at.x, corner.y - at.y)).toBeLessThan(1.5);
  });
});

test("a sheet said to end at the frame is cut off there", () => {
  const { picture, outline, context } = captureSheet({ seed: 71 });
  const { topLeft, topRight } = outline.sheet;
  const saidSheet = { ...outline.sheet, topLeft: { ...topLeft, y: -0.5 }, topRight: { ...topRight, y: -0.5 } };
  expect(findOutlines(picture, { ...context, saidSheet })[0]?.sides).toMatchObject({ top: "cut-off", bottom: "seen" });
});
