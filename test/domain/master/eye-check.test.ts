import { expect, test } from "vitest";
import { agreement, agreementByMeasure, type Judged, LEAST_OF_A_MEASURE } from "#domain/master/eye-check.ts";

const judged = (agrees: boolean | null, decisive: string | null = "samplingPpi"): Judged => ({ agrees, decisive, closeCall: false });
const many = (count: number, agrees: boolean | null, decisive?: string) => Array.from({ length: count }, () => judged(agrees, decisive));

// Newcombe 1998, table I, method 3: 81 of 263 gives 0.2553 to 0.3662; 15 of 148 gives 0.0624 to 0.1605; 0 of 20 gives 0 to 0.1611
test.each([
  [81, 263, 25.53, 36.62],
  [15, 148, 6.24, 16.05],
  [0, 20, 0, 16.11],
])("agreement comes with Wilson's interval: %i of %i, as published", (agreed, looked, low, high) => {
  const { share } = agreement([...many(agreed, true), ...many(looked - agreed, false)]);
  expect(share?.percent).toBeCloseTo((100 * agreed) / looked, 9);
  expect(share?.lowPercent).toBeCloseTo(low, 2);
  expect(share?.highPercent).toBeCloseTo(high, 2);
});

test("what could not be told is counted apart and moves no share", () => {
  const without = agreement([...many(7, true), ...many(2, false)]);
  const withUntold = agreement([...many(7, true), ...many(2, false), ...many(5, null)]);
  expect(withUntold).toEqual({ ...without, couldNotTell: 5 });
  expect(withUntold).toMatchObject({ agreed: 7, differed: 2 });
});

test("nothing judged is no share, and not a share of nought", () => {
  expect(agreement([])).toEqual({ agreed: 0, differed: 0, couldNotTell: 0, share: null });
  expect(agreement(many(3, null)).share).toBeNull();
});

test("a measure is told of only where it decided enough pairs that could be told", () => {
  const few = LEAST_OF_A_MEASURE - 1;
  const all = [
    ...many(LEAST_OF_A_MEASURE, true, "detailCyPerMm"),
    ...many(few, true, "skewDegrees"),
    ...many(9, null, "skewDegrees"),
    judged(true, null),
  ];
  expect(agreementByMeasure(all).map(({ measure, agreement: { agreed } }) => [measure, agreed])).toEqual([
    ["detailCyPerMm", LEAST_OF_A_MEASURE],
  ]);
});
