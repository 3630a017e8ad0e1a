import { expect, test } from "vitest";
import { matchToPrint } from "#domain/capture/match-to-print.ts";

const NUMBERS = ["1978.004.1", "1978.004.12", "1978.004", "LIN-A", "Box 7/3", "1978.004.12.2"];

test.each([
  ["1978.004.12_a.jpg", "1978.004.12"],
  ["1978.004.1.tif", "1978.004.1"],
  ["1978-004-1 back.JPG", "1978.004.1"],
  ["1978_004_12-front.heic", "1978.004.12"],
  ["1978.004.12.2.jpg", "1978.004.12.2"],
  ["1978.004.12", "1978.004.12"],
  ["1978.004.12b.jpg", "1978.004.12"],
  ["lin-a.jpg", "LIN-A"],
  ["LIN_A_2.jpg", "LIN-A"],
  ["Box_7-3.png", "Box 7/3"],
])("%s belongs to %s", (fileName, number) => {
  expect(matchToPrint(fileName, NUMBERS)).toBe(number);
});

test("a number ends where it ends", () => {
  expect(matchToPrint("1978.004.12_a.jpg", ["1978.004.1"])).toBeNull();
  expect(matchToPrint("LIN-ABEL.jpg", ["LIN-A"])).toBeNull();
  expect(matchToPrint("19780612_101010.jpg", ["1978"])).toBeNull();
});

test("a file that begins with no number waits for a person", () => {
  for (const fileName of ["IMG_0042.jpg", "copy of 1978.004.1.jpg", "", "....jpg"]) expect(matchToPrint(fileName, NUMBERS)).toBeNull();
  expect(matchToPrint("1978.004.1.jpg", [])).toBeNull();
  expect(matchToPrint("1978.004.1.jpg", ["", " ", "..."])).toBeNull();
});

test("of two numbers that differ only in their signs, the one that is written in the name is meant, else neither", () => {
  expect(matchToPrint("A-1.jpg", ["A.1", "A-1"])).toBe("A-1");
  expect(matchToPrint("A_1.jpg", ["A.1", "A-1"])).toBeNull();
});

test("the order of the numbers does not matter", () => {
  for (const fileName of ["1978.004.12_a.jpg", "1978.004.1.tif"])
    expect(matchToPrint(fileName, [...NUMBERS].reverse())).toBe(matchToPrint(fileName, NUMBERS));
});

test("one of ten thousand numbers is found", () => {
  const numbers = Array.from({ length: 10_000 }, (_, place) => `1978.${Math.floor(place / 100)}.${place % 100}`);
  expect(matchToPrint("1978.57.12_back.jpg", numbers)).toBe("1978.57.12");
});
