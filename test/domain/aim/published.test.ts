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
  ["sampling at least 392 ppi", "sampling", "requiredAtLeast", 392],
  ["8 bit at least", "bit-depth", "requiredAtLeast", 8],
  ["tone response ±4", "tone-response", "requiredAtMost", 4],
  ["white balance 4", "white-balance", "requiredAtMost", 4],
  ["lightness uniformity 3 %", "lightness-uniformity", "requiredAtMost", 3],
  ["mean colour difference 3.5", "colour-accuracy-mean", "requiredAtMost", 3.5],
  ["90th percentile 8.75", "colour-accuracy-90th", "requiredAtMost", 8.75],
  ["misregistration 0.5 px", "channel-misregistration", "requiredAtMost", 0.5],
  ["SFR10 80 %", "target-sfr10-efficiency", "requiredAtLeast", 80],
  ["SFR50 above 40 %", "target-sfr50-share", "requiredAtLeast", 40],
  ["SFR50 below 75 %", "target-sfr50-share", "requiredAtMost", 75],
  ["sharpening 1.1", "target-sharpening", "requiredAtMost", 1.1],
  ["noise 2", "target-noise", "requiredAtMost", 2],
  ["scale 2 %", "reproduction-scale", "requiredAtMost", 2],
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
  expect(limit("reproduction", "sampling")?.requiredAtLeast).toBeCloseTo(300 * 0.98, 12);
});
