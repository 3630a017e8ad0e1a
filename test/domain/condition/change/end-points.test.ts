import { describe, expect, test } from "vitest";
import { CHANGES } from "#domain/condition/change/change-names.ts";
import { END_POINTS, type QualifiedValue, timeToEnd } from "#domain/condition/change/end-points.ts";
import { reaches, straightLine, uncertaintyOn, valueOn } from "#domain/condition/change/straight-line.ts";

const points = (values: readonly number[], standardUncertainty: number, everyYears = 5): QualifiedValue[] =>
  values.map((value, index) => ({ at: index * everyYears, value, standardUncertainty, isQualified: true }));

describe("years to a limit", () => {
  test("a loss of 0.01 a year reaches 0.30 after 30 years, within an interval that holds it", () => {
    const found = timeToEnd(points([0, 0.05, 0.1, 0.15], 0.005), 0.3);
    if ("absent" in found) throw new Error(found.absent);
    expect(found.years).toBeCloseTo(30, 9);
    expect(found.earliest).toBeLessThan(30);
    expect(found.latest).toBeGreaterThan(30);
  });

  test("both ends of the interval lie where the limit is two uncertainties off the line", () => {
    const line = straightLine(points([0, 0.06, 0.09, 0.16], 0));
    if (!line) throw new Error("no line");
    const found = reaches(line, 0.3, 0.008, 2);
    for (const end of [found?.earliest ?? 0, found?.latest ?? 0])
      expect(Math.abs(0.3 - valueOn(line, end))).toBeCloseTo(2 * uncertaintyOn(line, end, 0.008), 9);
  });

  test("worse captures give a wider interval, and at last one without an end", () => {
    const width = (uncertainty: number) => {
      const found = timeToEnd(points([0, 0.05, 0.1, 0.15], uncertainty), 0.3);
      if ("absent" in found) throw new Error(found.absent);
      return found.latest === null ? Number.POSITIVE_INFINITY : found.latest - found.earliest;
    };
    expect(width(0.01)).toBeGreaterThan(width(0.005));
    expect(width(0.2)).toBe(Number.POSITIVE_INFINITY);
  });

  test("the capture that the others are held against, whose error is in theirs, does not narrow the interval", () => {
    const [first, ...later] = points([0, 0.05, 0.1], 0.005);
    const held = timeToEnd([{ ...(first as QualifiedValue), standardUncertainty: 0 }, ...later], 0.3);
    expect(held).toEqual(timeToEnd(points([0, 0.05, 0.1], 0.005), 0.3));
    expect(held).toMatchObject({ years: expect.closeTo(30, 9) });
  });

  test("scatter about the line widens the interval too", () => {
    const even = timeToEnd(points([0, 0.05, 0.1, 0.15], 0.001), 0.3);
    const uneven = timeToEnd(points([0.01, 0.04, 0.11, 0.14], 0.001), 0.3);
    if ("absent" in even || "absent" in uneven) throw new Error("absent");
    expect(uneven.earliest).toBeLessThan(even.earliest);
  });

  test.each([
    ["two captures", points([0, 0.1], 0.01), /2 of 3 dated captures/],
    [
      "three, one by nobody knows what",
      [...points([0, 0.1], 0.01), { at: 20, value: 0.2, standardUncertainty: 0.01, isQualified: false }],
      /2 of 3/,
    ],
    ["all of one day", points([0, 0.1, 0.2], 0.01, 0), /one day/],
    ["change the other way", points([0, -0.05, -0.1], 0.01), /no change towards/],
  ] as const)("%s: no years, and why", (_, values, reason) => {
    expect(timeToEnd(values, 0.3)).toEqual({ absent: expect.stringMatching(reason) });
  });
});

test("every limit has a measured number, a source, and says how it is known", () => {
  for (const { name, limit, source, known } of END_POINTS) {
    expect(CHANGES[name].unit).toBe("D");
    expect(limit).toBeGreaterThan(0);
    expect(source).toContain(known === "quoted" ? "quotation" : "from memory");
  }
});
