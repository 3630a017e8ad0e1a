import { expect, test } from "vitest";
import { focusProfiles, lightnessCurve, meanSfr, streakProfiles } from "#domain/comparison/plot-lines.ts";
import type { Reading } from "#domain/measure/reading.ts";

const read = (name: Reading["name"], detail: Record<string, unknown>): Reading[] => [{ name, value: 1, reliability: "firm", detail }];

test("the response of a capture is the mean over its edges, as far as the shortest reaches", () => {
  const curves = [
    { label: "left", cyPerMm: [0, 4], modulation: [1, 0] },
    { label: "top", cyPerMm: [0, 2, 8], modulation: [1, 0.8, 0] },
  ];
  const mean = meanSfr(read("sfr50CyPerMm", { curves }));
  expect(mean?.x.at(-1)).toBe(4);
  // at 2: 0.5 and 0.8; at 4: 0 and 0.8 × 2/3
  expect(mean?.y[16]).toBeCloseTo(0.65, 9);
  expect(mean?.y.at(-1)).toBeCloseTo((0.8 * 2) / 3 / 2, 9);
  expect(meanSfr([{ name: "sfr50CyPerMm", absent: "no edge" }])).toBeNull();
  expect(meanSfr(read("sfr50CyPerMm", { curves: [] }))).toBeNull();
});

test("a histogram's steps stand in the middle of their lightness, in percent", () => {
  const { x, y } = lightnessCurve([0.25, 0, 0.75]);
  expect([x, y]).toEqual([
    [1, 3, 5],
    [25, 0, 75],
  ]);
});

test("of a capture turned by a quarter, sharpness is told along the print's own sides", () => {
  // 10 px to the mm; the print of 40 × 60 mm lies on its side, its own top left at the top right of the frame
  const seen = { topLeft: { x: 0, y: 0 }, topRight: { x: 600, y: 0 }, bottomRight: { x: 600, y: 400 }, bottomLeft: { x: 0, y: 400 } };
  const own = { topLeft: seen.topRight, topRight: seen.bottomRight, bottomRight: seen.bottomLeft, bottomLeft: seen.topLeft };
  const places = [
    // on the frame's right side, which is the print's own top: 5 mm and 35 mm from its own left
    { across: 1, down: 0.125, sfr50CyPerMm: 3 },
    { across: 1, down: 0.875, sfr50CyPerMm: 5 },
    // on the frame's upper side, which is the print's own left: 6 mm from its own top
    { across: 0.9, down: 0, sfr50CyPerMm: 4 },
  ];
  const focus = focusProfiles(read("focusFalloffPercent", { places }), seen, own, { widthMm: 40, heightMm: 60 });
  expect(focus?.across.y).toEqual([3, 5]);
  expect(focus?.across.x[0]).toBeCloseTo(40 / 12, 9);
  expect(focus?.across.x[1]).toBeCloseTo(40 - 40 / 12, 9);
  expect(focus?.down).toEqual({ x: [5], y: [4] });
  // inside, in the frame's upper half: the right half of the print, 15 mm from its own top
  const tiles = [0.1, 0.4].map((down, index) => ({ across: 0.75, down, sfr50CyPerMm: 2 + 2 * index }));
  const inside = focusProfiles(read("focusFalloffPercent", { tiles }), seen, own, { widthMm: 40, heightMm: 60 });
  expect(inside?.insideDown).toEqual({ x: [15], y: [3] });
  expect(inside?.insideAcross.y).toEqual([2, 4]);
  expect(inside?.across.x).toEqual([]);
  expect(focusProfiles([], seen, own, { widthMm: 40, heightMm: 60 })).toBeNull();
});

test("streaks are drawn where they lie, each way they run for itself, light and dark ones alike", () => {
  const streaks = [
    { line: "down the frame", fromFrameEdgeMm: 30, widthMm: 0.4, deltaL: -2 },
    { line: "down the frame", fromFrameEdgeMm: 10, widthMm: 0.2, deltaL: 1 },
    { line: "across the frame", fromFrameEdgeMm: 5, widthMm: 1, deltaL: 3 },
  ];
  const [down, across] = streakProfiles(read("streakCount", { streaks }));
  expect(down).toEqual({ runs: "down the frame", x: [9.9, 10, 10.1, 29.8, 30, 30.2], y: [0, 1, 0, 0, 2, 0] });
  expect(across?.y).toEqual([0, 3, 0]);
  expect(streakProfiles(read("streakCount", { streaks: [] }))).toEqual([]);
});
