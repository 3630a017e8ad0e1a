import { expect, test } from "vitest";
import { MEASURE_NAMES } from "#domain/measure/catalogue.ts";
import { MEASURE_SUBJECTS } from "#views/parts/measure-subjects.ts";

test("every measure stands under one subject, so that none is missing from a capture's page", () => {
  expect(MEASURE_SUBJECTS.flatMap(({ names }) => names).toSorted()).toEqual([...MEASURE_NAMES].toSorted());
});
