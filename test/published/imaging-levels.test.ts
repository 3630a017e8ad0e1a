import { expect, test } from "vitest";
import type { AimLimit } from "#domain/aim/aim.ts";
import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import type { TargetMeasureName } from "#domain/aim/target-measures.ts";

// Published levels of imaging systems, as printed, and the aims' figures held against the column that each one names.

type Levels = Partial<Readonly<Record<TargetMeasureName, readonly number[]>>>;

/** FADGI, Technical Guidelines for Digitizing Cultural Heritage Materials, September 2016, table Prints and Photographs: 1, 2, 3, 4 star. */
const FADGI_2016: Levels = {
  toneResponseDeltaL: [8, 6, 4, 2],
  whiteBalanceDeltaAb: [8, 6, 4, 2],
  lightnessUniformityPercent: [8, 5, 3, 1],
  colourAccuracyMeanDeltaE: [10, 6, 4, 2],
  targetMisregistrationPx: [1.2, 0.8, 0.5, 0.33],
  targetSfr10EfficiencyPercent: [60, 70, 80, 90],
  targetSfr50SharePercent: [25, 30, 35, 40],
  targetPeakSfr: [1.3, 1.2, 1.1, 1.0],
  targetNoiseDeltaL: [4, 3, 2, 1],
  reproductionScalePercent: [3, 3, 2, 1],
};

/**
 * FADGI, third edition, May 2023, 3 star, as quoted by a third-party comparison and by a Czech methodology that cites it:
 * the document itself was not read.
 */
const FADGI_2023_THREE_STAR: Levels = {
  toneResponseDeltaL: [3],
  colourAccuracyMeanDeltaE: [3.5],
  colourAccuracy90thDeltaE: [7],
  targetPeakSfr: [1.05],
};

/** ISO 19264-1:2021, annex B, levels A, B, C, as quoted by a third-party table: the standard itself was not read. */
const ISO_19264_1: Levels = {
  toneResponseDeltaL: [2, 3, 4],
  whiteBalanceDeltaAb: [3, 4, 5],
  colourAccuracyMeanDeltaE: [4, 5, 5],
  colourAccuracyMaximumDeltaE: [10, 15, 15],
  targetNoiseDeltaL: [1.6, 2, 2.2],
  targetSfr10EfficiencyPercent: [85, 80, 70],
};

/** Limits that name a table as their first words, with the column they should come from. */
const onTarget = PUBLISHED_AIMS.flatMap((aim) => aim.limits.filter((limit) => limit.provedBy === "target"));
const from = (table: string): AimLimit[] => onTarget.filter(({ source }) => source.startsWith(table));
const required = (limit: AimLimit) => limit.requiredAtLeast ?? limit.requiredAtMost;

test.each([
  ["FADGI 2016, table Prints and Photographs, 2 star", FADGI_2016, 1, 3],
  ["ISO 19264-1:2021, annex B, level B", ISO_19264_1, 1, 6],
] as const)("every limit from %s has the printed figure", (table, levels, column, fewest) => {
  const limits = from(table);
  expect(limits.length).toBeGreaterThanOrEqual(fewest);
  for (const limit of limits) expect(required(limit), limit.measure).toBe(levels[limit.measure as TargetMeasureName]?.[column]);
});

test("where 36 CFR 1236.50 differs from the edition of 2023 that it says it equals, the limit quotes the other figure too", () => {
  for (const [measure, levels] of Object.entries(FADGI_2023_THREE_STAR)) {
    const limit = from("36 CFR 1236.50").find((each) => each.measure === measure);
    if (limit && required(limit) !== levels[0]) expect(limit.source, measure).toContain(`below ${levels[0]} at 3 star, as quoted`);
  }
});

test("levels get stricter from star to star and from C to A", () => {
  for (const [levels, strictestFirst] of [
    [FADGI_2016, false],
    [ISO_19264_1, true],
  ] as const)
    for (const [measure, figures] of Object.entries(levels)) {
      const ordered = strictestFirst ? [...figures].reverse() : figures;
      const rises = measure.startsWith("targetSfr");
      for (let index = 1; index < ordered.length; index++) {
        const [before, after] = [ordered[index - 1] as number, ordered[index] as number];
        expect(rises ? after - before : before - after, measure).toBeGreaterThanOrEqual(0);
      }
    }
});
