import { expect, test } from "vitest";
import { toneMap } from "#domain/measure/laying/tone-map.ts";
import { trimmedMean } from "#domain/measure/numbers/trimmed-mean.ts";
import { blurred, resized, turnedBy, valueAt } from "#domain/measure/planes/grid-plane.ts";
import { random } from "../../../fixtures/picture-scenes.ts";

const plane = (width: number, ...values: number[]) => ({ width, height: values.length / width, data: Float32Array.from(values) });

test("a turn by a quarter is clockwise, and four make none", () => {
  const start = plane(3, 1, 2, 3, 4, 5, 6);
  expect(turnedBy(start, 1)).toEqual(plane(2, 4, 1, 5, 2, 6, 3));
  expect(turnedBy(start, 2)).toEqual(plane(3, 6, 5, 4, 3, 2, 1));
  expect(turnedBy(turnedBy(start, 1), 3)).toEqual(start);
});

test("a smaller size is the mean of what it covers, whole pixels or parts of them", () => {
  expect(resized(plane(4, 1, 3, 5, 7), 2, 1)).toEqual(plane(2, 2, 6));
  const thirds = resized(plane(3, 0, 6, 12), 2, 1).data;
  expect(thirds[0]).toBeCloseTo(2, 6);
  expect(thirds[1]).toBeCloseTo(10, 6);
});

test("blur keeps a plain plane and the sum of a point, and does not spread what is not seen", () => {
  expect(Math.max(...blurred({ width: 9, height: 9, data: new Float32Array(81).fill(0.5) }, 1).data)).toBeCloseTo(0.5, 6);
  const point = new Float32Array(21 * 21);
  point[220] = 1;
  expect(blurred({ width: 21, height: 21, data: point }, 1.5).data.reduce((sum, value) => sum + value, 0)).toBeCloseTo(1, 4);
  const holed = new Float32Array(81).fill(0.5);
  holed[40] = Number.NaN;
  const after = blurred({ width: 9, height: 9, data: holed }, 1).data;
  expect(after[40]).toBeNaN();
  expect(after[41]).toBeCloseTo(0.5, 6);
});

test("values between pixels are weighted, and outside there is none", () => {
  const square = plane(2, 0, 1, 2, 3);
  expect(valueAt(square, 0.5, 0.5)).toBe(1.5);
  expect(valueAt(square, 1, 1)).toBe(3);
  expect(valueAt(square, -0.1, 0)).toBeNaN();
});

test("a tone map gives back a known curve, beyond its ends too, though a tenth of the places shine", () => {
  const from = Float32Array.from({ length: 6000 }, (_, index) => 0.1 + 0.6 * random(index, 1, 9));
  const to = from.map((value, index) => value ** 1.3 * 0.8 + (index % 10 === 0 ? 0.2 : 0));
  const map = toneMap(from, to);
  for (const value of [0.08, 0.15, 0.3, 0.5, 0.68, 0.75]) expect(Math.abs(map(value) / (0.8 * value ** 1.3) - 1)).toBeLessThan(0.03);
});

test("a tone map never falls", () => {
  const from = Float32Array.from({ length: 3000 }, (_, index) => random(index, 2, 9));
  const map = toneMap(
    from,
    from.map((value, index) => 0.3 + 0.1 * value + 0.4 * random(index, 3, 9)),
  );
  const values = Array.from({ length: 60 }, (_, index) => map(index / 50));
  values.slice(1).forEach((value, index) => {
    expect(value - (values[index] as number)).toBeGreaterThan(-1e-9);
  });
});

test("a trimmed mean leaves out the ends and needs no many values", () => {
  expect(trimmedMean([1, 2, 3, 4, 5, 6, 7, 8, 9, 1000])).toBe(5.5);
  expect(trimmedMean([4])).toBe(4);
  expect(trimmedMean([])).toBeNaN();
});
