import { expect, test } from "vitest";
import { desirability, overallDesirability } from "#domain/master/desirability.ts";

const sampling = { sense: "at-least", lowest: 200, best: 600, highest: null } as const;
const noise = { sense: "at-most", lowest: null, best: 1, highest: 4 } as const;
const tone = { sense: "between", lowest: 40, best: 50, highest: 90 } as const;

test.each([
  ["more is better: at the worst", sampling, 200, 0],
  ["more is better: below the worst", sampling, 10, 0],
  ["more is better: half the way", sampling, 400, 0.5],
  ["more is better: beyond the best", sampling, 2400, 1],
  ["less is better: better than the best", noise, 0, 1],
  ["less is better: a third of the way to the worst", noise, 2, 2 / 3],
  ["less is better: worse than the worst", noise, 9, 0],
  ["between: half up", tone, 45, 0.5],
  ["between: at the best", tone, 50, 1],
  ["between: the far side has its own slope", tone, 80, 0.25],
  ["between: beyond", tone, 91, 0],
])("%s", (_, limit, value, expected) => {
  expect(desirability(limit, value)).toBeCloseTo(expected, 12);
});

test("where the far end is missing, everything short of the best is worthless", () => {
  expect(desirability({ sense: "at-least", lowest: null, best: 1, highest: null }, 0.99)).toBe(0);
});

test("weights are exponents: 0.25 counted three times and 1 once give the cube of 0.25 to the fourth root", () => {
  const parts = [
    { desirability: 0.25, weight: 3 },
    { desirability: 1, weight: 1 },
  ];
  expect(overallDesirability(parts)).toBeCloseTo(0.25 ** 0.75, 12);
});

test("a worthless measure that weighs nothing does no harm", () => {
  const parts = [
    { desirability: 0, weight: 0 },
    { desirability: 0.5, weight: 2 },
  ];
  expect(overallDesirability(parts)).toBeCloseTo(0.5, 12);
});

test("nothing shown has no overall desirability, which is not 0", () => {
  expect(overallDesirability([])).toBeNull();
});
