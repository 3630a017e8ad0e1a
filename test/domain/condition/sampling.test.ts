import { describe, expect, test } from "vitest";
import { drawSample, exactSampleSize, sampleSize, shareWithInterval } from "#domain/condition/sampling.ts";

describe("how many to draw", () => {
  const aim = { population: 5000, marginPercent: 5, confidencePercent: 95, expectedPercent: 50 } as const;

  test("a wider margin, a lower confidence, a share far from half and a smaller collection each ask for fewer", () => {
    const least = sampleSize(aim);
    for (const easier of [{ marginPercent: 10 }, { confidencePercent: 90 as const }, { expectedPercent: 10 }, { population: 500 }])
      expect(sampleSize({ ...aim, ...easier })).toBeLessThan(least);
  });

  test("never more than there are, never none, and never less than asked", () => {
    expect(sampleSize({ ...aim, population: 3 })).toBe(3);
    expect(sampleSize({ ...aim, expectedPercent: 0.0001 })).toBe(1);
    expect(sampleSize(aim)).toBeGreaterThanOrEqual(exactSampleSize(aim));
  });
});

describe("the draw", () => {
  const prints = Array.from({ length: 40 }, (_, index) => index);

  test("is the same for the same seed, another for another, and takes no print twice", () => {
    const drawn = drawSample(prints, 12, 7);
    expect(drawSample(prints, 12, 7)).toEqual(drawn);
    expect(drawSample(prints, 12, 8)).not.toEqual(drawn);
    expect(new Set(drawn).size).toBe(12);
    expect(drawn.every((print) => prints.includes(print))).toBe(true);
    expect(prints).toEqual(Array.from({ length: 40 }, (_, index) => index));
  });

  test("of all takes all", () => {
    expect(drawSample(prints, 40, 3).toSorted((a, b) => a - b)).toEqual(prints);
    expect(drawSample(prints, 99, 3)).toHaveLength(40);
  });

  test("takes each print as often as any other: 4,000 draws of 10 in 40, chi-squared", () => {
    const times = new Array<number>(40).fill(0);
    for (let seed = 0; seed < 4000; seed++) for (const print of drawSample(prints, 10, seed)) times[print] = (times[print] ?? 0) + 1;
    const chiSquared = times.reduce((sum, n) => sum + (n - 1000) ** 2 / 1000, 0);
    // 39 degrees of freedom: 72.1 is passed once in a thousand (any table); drawing without replacement lowers it further
    expect(chiSquared).toBeLessThan(72.1);
  });
});

describe("the share", () => {
  const of = { seen: 12, looked: 80, confidencePercent: 95 } as const;

  test("lies inside its interval, which a finite collection narrows until nothing is in doubt", () => {
    const widths = [null, 800, 160, 90, 80].map((population) => {
      const { percent, lowPercent, highPercent } = shareWithInterval({ ...of, population });
      expect(percent).toBe(15);
      expect(lowPercent).toBeLessThanOrEqual(15);
      expect(highPercent).toBeGreaterThanOrEqual(15);
      return highPercent - lowPercent;
    });
    expect(widths).toEqual(widths.toSorted((a, b) => b - a));
    expect(widths.at(-1)).toBe(0);
  });

  test("covers the truth about as often as it says: 2,000 samples of 60 out of 300, a tenth of them bad", () => {
    const prints = Array.from({ length: 300 }, (_, index) => index < 30);
    let covered = 0;
    for (let seed = 1; seed <= 2000; seed++) {
      const seen = drawSample(prints, 60, seed).filter(Boolean).length;
      const { lowPercent, highPercent } = shareWithInterval({ seen, looked: 60, population: 300, confidencePercent: 95 });
      if (lowPercent <= 10 && 10 <= highPercent) covered++;
    }
    expect(covered / 2000).toBeGreaterThan(0.92);
    expect(covered / 2000).toBeLessThan(0.99);
  });

  test("none seen still allows for some; none looked at is no share", () => {
    expect(shareWithInterval({ ...of, seen: 0, population: null })).toMatchObject({ lowPercent: 0, percent: 0 });
    expect(shareWithInterval({ ...of, seen: 0, population: null }).highPercent).toBeGreaterThan(1);
    expect(() => shareWithInterval({ ...of, seen: 0, looked: 0, population: null })).toThrow(RangeError);
  });
});
