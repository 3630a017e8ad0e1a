import { expect, test } from "vitest";
import { specksOnGlass } from "#domain/measure/surface/specks-on-glass.ts";
import { seeded } from "#domain/seeded.ts";

/** A square of 60 cm². */
const SIDE_MM = Math.sqrt(6000);

type Place = { readonly x: number; readonly y: number };

const strewn = (count: number, seed: number): Place[] => {
  const random = seeded(seed);
  return Array.from({ length: count }, () => ({ x: SIDE_MM * random(), y: SIDE_MM * random() }));
};
/** A capture of specks at these places of the frame; the print lay so many mm to the right. */
const captureOf = (places: readonly Place[], movedMm: number) => ({
  seenCm2: 60,
  specks: places.map((glass) => ({ glass, print: { x: glass.x - movedMm, y: glass.y } })),
});

// 300² π 0.4² / 6000 = 7.5 meet by chance, seldom more than 7.5 + 3 √7.5 = 15.8
test.each([8101, 8102, 8103, 8104])(
  "of 300 specks strewn by chance on each of two captures none are told to be on the glass (seed %i)",
  (seed) => {
    expect(specksOnGlass([captureOf(strewn(300, seed), 0), captureOf(strewn(300, seed + 50), 9)])).toEqual([0, 0]);
  },
);

test("30 of the glass among 300 by chance are told, and of ten, where hardly two meet by chance, three are enough", () => {
  const glass = strewn(30, 8201);
  const [one] = specksOnGlass([captureOf([...glass, ...strewn(300, 8202)], 0), captureOf([...glass, ...strewn(300, 8203)], 9)]);
  // 330² π 0.4² / 6000 = 9.1 more by chance
  expect(one).toBeGreaterThanOrEqual(30);
  expect(one).toBeLessThan(30 + 9.1 + 3 * Math.sqrt(9.1));
  const few = (count: number) => specksOnGlass([captureOf(glass.slice(0, 10), 0), captureOf(glass.slice(10 - count, 20 - count), 9)]);
  expect(few(3)).toEqual([3, 3]);
  expect(few(2)).toEqual([0, 0]);
});

test("where the print did not move nothing tells the glass from the print", () => {
  const glass = strewn(30, 8301);
  expect(specksOnGlass([captureOf(glass, 0), captureOf(glass, 0)])).toEqual([0, 0]);
});
