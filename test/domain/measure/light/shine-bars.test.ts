import { expect, test } from "vitest";
import { barsIn } from "#domain/measure/light/shine-bars.ts";
import type { GridPlane } from "#domain/measure/planes/grid-plane.ts";

const SIDE = 16;
const WHOLE = [
  { x: 0, y: 0 },
  { x: SIDE, y: 0 },
  { x: SIDE, y: SIDE },
  { x: 0, y: SIDE },
] as const;

/** A square of few cells, each of which spans three steps, with light of 1 but for where it is dark. */
const lit = (isDark: (column: number, row: number) => boolean): GridPlane => ({
  width: SIDE,
  height: SIDE,
  data: Float32Array.from({ length: SIDE * SIDE }, (_, at) => (isDark(at % SIDE, Math.floor(at / SIDE)) ? 0.2 : 1)),
});
const bars = (isDark: (column: number, row: number) => boolean) => barsIn(lit(isDark), WHOLE, 1);

test.each([1, 2])("a bar of %d cells from side to side is one bar, across or down, and two that cross are two", (wide) => {
  const isIn = (along: number) => along >= 7 && along < 7 + wide;
  expect(bars((column) => isIn(column))).toBe(1);
  expect(bars((_, row) => isIn(row))).toBe(1);
  expect(bars((column, row) => isIn(column) || isIn(row))).toBe(2);
});

test("two bars that one bright cell more than a bar's width parts are two", () => {
  expect(bars((column) => column === 4 || column === 10)).toBe(2);
});

test("a bar that leans by a cell over its length is one bar still", () => {
  expect(bars((column, row) => column === (row < SIDE / 2 ? 7 : 8))).toBe(1);
});

test.each([3, 5, 6])("what is dark over %d of 16 rows only is no bar, however many steps it is wide", (rows) => {
  for (const wide of [1, 2]) expect(bars((column, row) => column >= 7 && column < 7 + wide && row >= 4 && row < 4 + rows)).toBe(0);
});
