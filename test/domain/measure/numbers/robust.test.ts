import { expect, test } from "vitest";
import { median, robustSpread } from "#domain/measure/numbers/robust.ts";
import { random } from "../../../fixtures/picture-scenes.ts";

test.each([1, 2, 3, 4, 7, 50, 501, 2000])(
  "the median of %i values is the middle of them in order, and leaves them as they were",
  (count) => {
    for (const kinds of [2, 5, 1e9]) {
      const values = Float64Array.from({ length: count }, (_, index) => Math.floor(kinds * random(index, count, 3)) / kinds);
      const before = values.slice();
      const sorted = values.slice().sort();
      const expected = ((sorted[(count - 1) >> 1] as number) + (sorted[count >> 1] as number)) / 2;
      expect(median(values)).toBe(expected);
      expect(values).toEqual(before);
    }
  },
);

test("nothing, and what holds no number, has no median; infinite values have their place", () => {
  expect(median([])).toBeNaN();
  expect(median([1, Number.NaN, 3])).toBeNaN();
  expect(median([Number.NEGATIVE_INFINITY, 2, Number.POSITIVE_INFINITY])).toBe(2);
});

test("the spread of the bulk is not moved by a few far values", () => {
  expect(robustSpread([1, 2, 3, 4, 5])).toBeCloseTo(1.4826, 6);
  expect(robustSpread([1, 2, 3, 4, 1000])).toBeCloseTo(1.4826, 6);
});
