import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { ciede2000 } from "#domain/measure/colour/ciede2000.ts";
import type { Lab } from "#domain/measure/colour/lab.ts";

// Sharma, Wu, Dalal, Color Research and Application 30(1), 2005, table 1.
const PAIRS = readFileSync(new URL("../fixtures/ciede2000-sharma-2005.csv", import.meta.url), "utf8")
  .trim()
  .split("\n")
  .slice(1)
  .map((line) => line.split(",").map(Number) as [number, number, number, number, number, number, number]);

test("all 34 pairs of Sharma, Wu and Dalal 2005 agree to four decimals, in both orders", () => {
  expect(PAIRS).toHaveLength(34);
  for (const [l1, a1, b1, l2, a2, b2, difference] of PAIRS) {
    const first: Lab = [l1, a1, b1];
    const second: Lab = [l2, a2, b2];
    expect(ciede2000(first, second)).toBeCloseTo(difference, 4);
    expect(ciede2000(second, first)).toBeCloseTo(difference, 4);
  }
});

test("a colour differs from itself by nothing, black and neutral included", () => {
  for (const colour of [
    [50, 20, -30],
    [0, 0, 0],
    [100, 0, 0],
  ] as const)
    expect(ciede2000(colour, colour)).toBe(0);
});
