import { expect, test } from "vitest";
import { numberInName } from "#domain/capture/number-in-name.ts";

test.each([
  ["1884.001.01_front.jpg", "{year}.{item:3}", "1884.001.01"],
  ["1884.001_front.jpg", "{year}.{item:3}", "1884.001"],
  ["1884_001_back.tif", "{year}/{item:3}", "1884/001"],
  ["AB-0012 verso.tif", "AB-{item:4}", "AB-0012"],
  ["ab_0012_2.tif", "AB-{item:4}", "AB-0012"],
  ["12.7.jpg", "", "12.7"],
])("the name %s in a collection that numbers its prints %s starts with %s", (name, pattern, number) => {
  expect(numberInName(name, [], pattern)).toBe(number);
});

test.each(["holiday.jpg", "IMG_2043.jpg", "bed-1.jpg", "2024-05-13 14.22.jpg", "12.jpg", "1978.4th.jpg"])(
  "the name %s holds no number",
  (name) => {
    expect(numberInName(name, [], "{year}.{item:3}")).toBe(null);
  },
);

test("a number that a print has is found in whatever form it is, as the collection writes it", () => {
  expect(numberInName("box 4_back.jpg", ["Box-4"], "{year}.{item:3}")).toBe("Box-4");
});

test("a longer number in the name is not taken for a print whose number it begins with", () => {
  expect(numberInName("1884.001.01_a.jpg", ["1884.001"], "{year}.{item:3}")).toBe("1884.001.01");
});
