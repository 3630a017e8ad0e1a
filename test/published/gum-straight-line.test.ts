import { linearRegression } from "simple-statistics";
import { expect, test } from "vitest";
import { straightLine, uncertaintyOn, valueOn } from "#domain/condition/change/straight-line.ts";

/** Readings of a thermometer less 20 °C, and the corrections found, °C: JCGM 100:2008, table H.6 (typed from memory; the results agree with the print). */
const THERMOMETER = [
  [21.521, -0.171],
  [22.012, -0.169],
  [22.512, -0.166],
  [23.003, -0.159],
  [23.507, -0.164],
  [23.999, -0.165],
  [24.513, -0.156],
  [25.002, -0.157],
  [25.503, -0.159],
  [26.01, -0.161],
  [26.511, -0.16],
] as const;
const POINTS = THERMOMETER.map(([reading, value]) => ({ at: reading - 20, value }));

test("JCGM 100:2008, H.3.3: intercept, slope and scatter of the thermometer's calibration line", () => {
  const line = straightLine(POINTS);
  expect(line?.intercept).toBeCloseTo(-0.1712, 4);
  expect(line?.slope).toBeCloseTo(0.00218, 5);
  expect(line?.residual).toBeCloseTo(0.0035, 4);
});

test("JCGM 100:2008, H.3.4: the correction at 30 °C is -0.1494 °C with 0.0041 °C", () => {
  const line = straightLine(POINTS);
  if (!line) throw new Error("no line");
  expect(valueOn(line, 10)).toBeCloseTo(-0.1494, 4);
  expect(uncertaintyOn(line, 10, line.residual)).toBeCloseTo(0.0041, 4);
});

test("the line is the one that an independent library draws", () => {
  const { m, b } = linearRegression(POINTS.map(({ at, value }) => [at, value]));
  expect(straightLine(POINTS)).toMatchObject({ slope: expect.closeTo(m, 12), intercept: expect.closeTo(b, 12) });
});
