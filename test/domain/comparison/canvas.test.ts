import { expect, test } from "vitest";
import { canvasFor, laidPxPerMm, MOST_CANVAS_PX } from "#domain/comparison/canvas.ts";

test.each([
  [54, 86],
  [88.5, 107.5],
  [420, 297],
  [24, 36],
  [61.37, 5.2],
])("a sheet of %f × %f mm lies in the middle of its canvas, with 2 mm and more round it", (widthMm, heightMm) => {
  const canvas = canvasFor({ widthMm, heightMm });
  expect(canvas.leftMm).toBeGreaterThanOrEqual(2);
  expect(canvas.topMm).toBeGreaterThanOrEqual(2);
  expect(2 * canvas.leftMm + widthMm).toBeCloseTo(canvas.widthMm, 9);
  expect(2 * canvas.topMm + heightMm).toBeCloseTo(canvas.heightMm, 9);
  for (const ownPxPerMm of [3.1, 11.81, 23.62, 47.2]) {
    const pxPerMm = laidPxPerMm(ownPxPerMm, canvas);
    // four halvings leave whole pixels
    expect((canvas.widthMm * pxPerMm) % 16).toBe(0);
    expect((canvas.heightMm * pxPerMm) % 16).toBe(0);
    expect(canvas.widthMm * pxPerMm * canvas.heightMm * pxPerMm).toBeLessThanOrEqual(MOST_CANVAS_PX);
  }
});

test("a capture is laid no coarser than it is, and hardly finer", () => {
  const canvas = canvasFor({ widthMm: 54, heightMm: 86 });
  expect(laidPxPerMm(11.81, canvas)).toBe(12);
  expect(laidPxPerMm(12.05, canvas)).toBe(12); // coarser by less than a hundredth
  expect(laidPxPerMm(12.5, canvas)).toBe(14);
  expect(laidPxPerMm(0.4, canvas)).toBe(2);
});

test("more pixels than can be held are not laid", () => {
  const canvas = canvasFor({ widthMm: 280, heightMm: 360 });
  const pxPerMm = laidPxPerMm(47.2, canvas);
  expect(pxPerMm).toBeLessThan(47);
  expect(canvas.widthMm * canvas.heightMm * (pxPerMm + 2) ** 2).toBeGreaterThan(MOST_CANVAS_PX);
});
