import { expect, test } from "vitest";
import { nextObjectNumber, objectNumberProblem, objectNumberSort, patternProblem } from "#domain/print/object-number.ts";

test("numbers sort as people count, whatever zeros stand before and however large the letters", () => {
  const inOrder = ["1978.4.9", "1978.004.10", "1978.4.12", "1978.4.12a", "1978.10.1", "a.2", "A.10", "b.1"];
  const shuffled = [...inOrder].reverse();
  expect(shuffled.sort((a, b) => (objectNumberSort(a) < objectNumberSort(b) ? -1 : 1))).toEqual(inOrder);
  expect(objectNumberSort("LIN.007")).toBe(objectNumberSort("lin.7"));
});

test("the first number of a year begins every counter with one", () => {
  expect(nextObjectNumber("{year}.{lot:3}.{item:2}", [], "2026-11-25")).toBe("2026.001.01");
});

test("the next number follows the highest of this year in its highest lot", () => {
  const existing = ["2026.001.40", "2026.002.09", "2025.009.99"];
  expect(nextObjectNumber("{year}.{lot:3}.{item:2}", existing, "2026-11-25")).toBe("2026.002.10");
});

test("a gap is never filled: its number may have been used and given up", () => {
  expect(nextObjectNumber("{year}.{item:3}", ["2026.001", "2026.007"], "2026-01-01")).toBe("2026.008");
});

test("numbers that do not follow the pattern are passed over", () => {
  const existing = ["Box 7", "2026-044", "2026.9.9", "x2026.050", "", "2026.003"];
  expect(nextObjectNumber("{year}.{item:3}", existing, "2026-01-01")).toBe("2026.004");
});

test("a counter grows beyond its digits instead of starting again, and unpadded numbers count", () => {
  expect(nextObjectNumber("{year}.{item:2}", ["2026.99"], "2026-01-01")).toBe("2026.100");
  expect(nextObjectNumber("{year}.{item:3}", ["2026.12"], "2026-01-01")).toBe("2026.013");
});

test("signs of the pattern mean themselves", () => {
  expect(nextObjectNumber("LIN-(A+B)/{item:4}", ["lin-(a+b)/0009", "LIN-AB/0044"], "2026-01-01")).toBe("LIN-(A+B)/0010");
  expect(nextObjectNumber("{year}.{item}", ["2026x5"], "2026-01-01")).toBe("2026.1");
});

test("the proposal is never a number that exists", () => {
  const existing: string[] = [];
  for (let count = 0; count < 200; count++) {
    const next = nextObjectNumber("{year}.{lot:2}.{item:2}", existing, "2026-01-01");
    expect(existing).not.toContain(next);
    existing.push(next);
  }
});

test("a pattern that cannot count is told why, and proposes nothing", () => {
  for (const pattern of ["{year}", "fixed", "{year}.{item:0}", "{item", "{year}{item:3}", "{lot}{item}", "{Item:3}", ""]) {
    expect(patternProblem(pattern), pattern).not.toBeNull();
    expect(nextObjectNumber(pattern, [], "2026-01-01"), pattern).toBe("");
  }
  for (const pattern of ["{year}.{item:3}", "{item}", "P{item:5}-{sheet}"]) expect(patternProblem(pattern), pattern).toBeNull();
});

test("a number needs a letter or digit, one line and a bounded length", () => {
  for (const number of ["", "   ", "...", "a\nb", "a\tb", "x".repeat(101)]) expect(objectNumberProblem(number), number).not.toBeNull();
  for (const number of ["1978.004.12", "A/1978/4", "Ä 7", "x".repeat(100)]) expect(objectNumberProblem(number), number).toBeNull();
});
