import { expect, test } from "vitest";
import { desirability, overallDesirability } from "#domain/master/desirability.ts";

// The tire tread example: four responses with their limits, as both sources print them.
const ABRASION = { sense: "at-least", lowest: 120, best: 170, highest: null } as const;
const MODULUS = { sense: "at-least", lowest: 1000, best: 1300, highest: null } as const;
const ELONGATION = { sense: "between", lowest: 400, best: 500, highest: 600 } as const;
const HARDNESS = { sense: "between", lowest: 60, best: 67.5, highest: 75 } as const;
const RESPONSES = [ABRASION, MODULUS, ELONGATION, HARDNESS];

const equally = (desirabilities: readonly number[]) =>
  overallDesirability(desirabilities.map((each) => ({ desirability: each, weight: 1 })));

test("Derringer and Suich 1980, the optimum of the tire tread compound: desirabilities 0.189, 1.000, 0.656, 0.932 and 0.583 in all", () => {
  const predicted = [129.5, 1300, 465.7, 68.0];
  const found = RESPONSES.map((limit, index) => desirability(limit, predicted[index] ?? Number.NaN));
  const published = [0.189, 1, 0.656, 0.932];
  // the paper's figures come from unrounded predictions: its last digit is good to 0.0015
  for (const [index, each] of published.entries()) expect(Math.abs((found[index] ?? Number.NaN) - each)).toBeLessThan(0.0015);
  expect(equally(published)).toBeCloseTo(0.583, 3);
  expect(Math.abs((equally(found) ?? Number.NaN) - 0.583)).toBeLessThan(0.0015);
});

test("NIST/SEMATECH e-Handbook 5.5.3.2.2: desirabilities 0.34, 1.0, 0.49 and 0.76 give 0.596 in all", () => {
  // rounded to two digits, they leave the product open by a few units of its third
  expect(Math.abs((equally([0.34, 1.0, 0.49, 0.76]) ?? Number.NaN) - 0.596)).toBeLessThan(0.001);
});

test("NIST/SEMATECH e-Handbook 5.5.3.2.2: its printed responses give its desirabilities and overall value, as near as it rounds", () => {
  const printed = [136.4, 1571.05, 450.56, 69.26];
  const found = RESPONSES.map((limit, index) => desirability(limit, printed[index] ?? Number.NaN));
  // the page's own responses and desirabilities differ by up to 0.016 from its formula: (136.4 − 120) / 50 is 0.328, printed 0.34
  for (const [index, each] of [0.34, 1.0, 0.49, 0.76].entries()) expect(Math.abs((found[index] ?? Number.NaN) - each)).toBeLessThan(0.017);
  expect(Math.abs((equally(found) ?? Number.NaN) - 0.596)).toBeLessThan(0.0015);
});

test("NIST/SEMATECH e-Handbook 5.5.3.2.2: one response that is completely undesirable makes the whole so", () => {
  expect(equally([1, 1, 0, 1])).toBe(0);
});
