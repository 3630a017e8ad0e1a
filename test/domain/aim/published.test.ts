import { expect, test } from "vitest";
import { PURPOSE_KEYS } from "#domain/aim/aim.ts";
import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import { isPrintMeasure, isTargetMeasure } from "#domain/aim/target-measures.ts";

const limits = PUBLISHED_AIMS.flatMap((aim) => aim.limits.map((limit) => ({ ...limit, of: aim.purpose.key })));
const limit = (key: string, measure: string) => limits.find((each) => each.of === key && each.measure === measure);

test("there is one aim for each purpose", () => {
  expect(PUBLISHED_AIMS.map((aim) => aim.purpose.key)).toEqual([...PURPOSE_KEYS]);
});

test("every limit names a measure that exists, on the side that can prove it, once in its aim, with its source", () => {
  for (const each of limits) {
    expect(each.provedBy === "print" ? isPrintMeasure(each.measure) : isTargetMeasure(each.measure), each.measure).toBe(true);
    expect(limits.filter((other) => other.of === each.of && other.measure === each.measure)).toHaveLength(1);
    expect(each.source.length).toBeGreaterThan(10);
    if (each.sourceStatus === "own") expect(each.source).toMatch(/^Own figure|^Worked out/);
  }
});

test("desirability rises towards the best, and a required value is one that still counts", () => {
  for (const each of limits) {
    if (each.lowest !== null) expect(each.lowest, each.measure).toBeLessThan(each.best);
    if (each.highest !== null) expect(each.highest, each.measure).toBeGreaterThan(each.best);
    if (each.requiredAtLeast !== null && each.lowest !== null) expect(each.requiredAtLeast, each.measure).toBeGreaterThan(each.lowest);
    if (each.requiredAtMost !== null && each.highest !== null) expect(each.requiredAtMost, each.measure).toBeLessThan(each.highest);
  }
});

test("no name says that a capture earns a star or a level", () => {
  for (const aim of PUBLISHED_AIMS) expect(`${aim.name} ${aim.purpose.name} ${aim.purpose.note}`).not.toMatch(/star|level/i);
});

test("what only a target proves weighs nothing between captures of a print", () => {
  const onTarget = limits.filter((each) => each.provedBy === "target");
  expect(onTarget.map((each) => each.weight)).toEqual(onTarget.map(() => 0));
});

test.each([
  ["sampling at least 392 ppi", "samplingPpi", "requiredAtLeast", 392],
  ["8 bit at least", "effectiveBitDepth", "requiredAtLeast", 8],
  ["tone response ±4", "toneResponseDeltaL", "requiredAtMost", 4],
  ["white balance 4", "whiteBalanceDeltaAb", "requiredAtMost", 4],
  ["lightness uniformity 3 %", "lightnessUniformityPercent", "requiredAtMost", 3],
  ["mean colour difference 3.5", "colourAccuracyMeanDeltaE", "requiredAtMost", 3.5],
  ["90th percentile 8.75", "colourAccuracy90thDeltaE", "requiredAtMost", 8.75],
  ["misregistration 0.5 px", "targetMisregistrationPx", "requiredAtMost", 0.5],
  ["SFR10 80 %", "targetSfr10EfficiencyPercent", "requiredAtLeast", 80],
  ["SFR50 above 40 %", "targetSfr50SharePercent", "requiredAtLeast", 40],
  ["SFR50 below 75 %", "targetSfr50SharePercent", "requiredAtMost", 75],
  ["sharpening 1.1", "targetPeakSfr", "requiredAtMost", 1.1],
  ["noise 2", "targetNoiseDeltaL", "requiredAtMost", 2],
  ["scale 2 %", "reproductionScalePercent", "requiredAtMost", 2],
] as const)("36 CFR 1236.50 table 2, for the preservation master: %s", (_, measure, end, figure) => {
  const found = limit("preservation-master", measure);
  expect(found?.[end]).toBe(figure);
  expect(found?.sourceStatus).toBe("standard");
  expect(found?.source).toContain("36 CFR 1236.50");
});

test("36 CFR 1236.48: a file that throws values away is no preservation master", () => {
  expect(limit("preservation-master", "lossless")?.requiredAtLeast).toBe(1);
});

test("FADGI 2016, note to Prints and Photographs: 300 ppi is the minimum to reproduce a photograph at its own size, less the 2 % of 36 CFR 1236.50", () => {
  expect(limit("reproduction", "samplingPpi")?.requiredAtLeast).toBeCloseTo(300 * 0.98, 12);
});
