import { expect, test } from "vitest";
import type { AimLimit } from "#domain/aim/aim.ts";
import { levelsReached } from "#domain/aim/level-reached.ts";
import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import { LEVEL_TABLES, type LevelRow } from "#domain/aim/published-levels.ts";

// Published levels of imaging systems, as printed, and the aims' figures held against the column that each one names.

type Levels = Partial<Readonly<Record<LevelRow["measure"], readonly (number | null)[]>>>;

/** FADGI, Technical Guidelines for Digitizing Cultural Heritage Materials, September 2016, table Prints and Photographs: 1, 2, 3, 4 star. */
const FADGI_2016: Levels = {
  samplingPpi: [100, 200, 400, 600],
  effectiveBitDepth: [8, 8, 8, 16],
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
 * FADGI, third edition, May 2023, 1, 2, 3, 4 star, as quoted by third parties: the document itself was not read. 1 star is quoted
 * for another category only, 2 and 3 star of the evenness are from memory, and what nobody quotes is null.
 */
const FADGI_2023: Levels = {
  samplingPpi: [null, null, 392, 594],
  effectiveBitDepth: [null, null, null, 16],
  toneResponseDeltaL: [6, 4.5, 3, 1.5],
  whiteBalanceDeltaAb: [8, 6, 4, 2],
  lightnessUniformityPercent: [8, 5, 3, 1],
  colourAccuracyMeanDeltaE: [6.5, 5, 3.5, 2],
  colourAccuracy90thDeltaE: [13, 10, 7, 4],
  targetMisregistrationPx: [null, 0.8, 0.5, 0.33],
  targetSfr10EfficiencyPercent: [60, 70, 80, 90],
  targetSfr50SharePercent: [null, null, null, 45],
  targetPeakSfr: [null, 1.1, 1.05, 1.02],
  targetNoiseDeltaL: [4, 3, 2, 1],
  reproductionScalePercent: [null, 3, 2, 1],
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
  for (const limit of limits) expect(required(limit), limit.measure).toBe(levels[limit.measure as LevelRow["measure"]]?.[column]);
});

test("where 36 CFR 1236.50 differs from the edition of 2023 that it says it equals, the limit quotes the other figure too", () => {
  for (const measure of ["toneResponseDeltaL", "colourAccuracyMeanDeltaE", "colourAccuracy90thDeltaE", "targetPeakSfr"] as const) {
    const threeStar = FADGI_2023[measure]?.[2];
    const limit = from("36 CFR 1236.50").find((each) => each.measure === measure);
    if (limit && required(limit) !== threeStar) expect(limit.source, measure).toContain(`below ${threeStar} at 3 star, as quoted`);
  }
});

test.each([
  ["fadgi-2016", ["1 star", "2 star", "3 star", "4 star"], FADGI_2016],
  ["fadgi-2023", ["1 star", "2 star", "3 star", "4 star"], FADGI_2023],
  ["iso-19264-1", ["level A", "level B", "level C"], ISO_19264_1],
] as const)("the table %s has every printed figure, level by level", (key, names, printed) => {
  const table = LEVEL_TABLES.find((each) => each.key === key);
  if (!table) throw new Error(key);
  expect(table.rows.map(({ measure }) => measure).sort()).toEqual(Object.keys(printed).sort());
  names.forEach((name, column) => {
    const at = table.levels.findIndex((level) => level.name === name);
    expect(table.levels[at]?.source).not.toBe("");
    for (const { measure, figures } of table.rows) expect(figures[at], `${measure}, ${name}`).toBe(printed[measure]?.[column]);
  });
});

test("levels get stricter from the lowest to the highest, wherever there are figures", () => {
  for (const { key, rows, levels } of LEVEL_TABLES)
    for (const { measure, sense, figures } of rows) {
      expect(figures, measure).toHaveLength(levels.length);
      const known = figures.filter((figure) => figure !== null);
      known.slice(1).forEach((figure, index) => {
        const before = known[index] as number;
        expect(sense === "at-least" ? figure - before : before - figure, `${key}: ${measure}`).toBeGreaterThanOrEqual(0);
      });
    }
});

test("a capture proves its sampling and the depth of its file, by the worse end of twice the standard uncertainty (JCGM 100:2008, 6.3.3), and nothing else", () => {
  const [table] = LEVEL_TABLES;
  if (!table) throw new Error("no table");
  const reached = levelsReached(table, [
    { name: "samplingPpi", value: 605, spread: 4, reliability: "firm" },
    { name: "effectiveBitDepth", value: 16, reliability: "firm" },
    { name: "noiseDeltaL", value: 0.5, reliability: "firm" },
  ]);
  const levelOf = (measure: string) => {
    const standing = reached.find(({ row }) => row.measure === measure)?.standing;
    return standing?.state === "level" ? standing.level.name : standing?.state;
  };
  expect(levelOf("samplingPpi")).toBe("3 star");
  expect(levelOf("effectiveBitDepth")).toBe("4 star");
  expect(reached.filter(({ standing }) => standing.state !== "needs-target")).toHaveLength(2);
});

test("below the lowest level, read weakly or not read, or known only as at most so much, a figure gets no level", () => {
  const [table] = LEVEL_TABLES;
  if (!table) throw new Error("no table");
  const sampling = (reading: Parameters<typeof levelsReached>[1]) => levelsReached(table, reading)[0]?.standing.state;
  expect(sampling([{ name: "samplingPpi", value: 90, reliability: "firm" }])).toBe("below");
  expect(sampling([{ name: "samplingPpi", value: 900, reliability: "weak" }])).toBe("not-read");
  expect(sampling([{ name: "samplingPpi", absent: "no size" }])).toBe("not-read");
  expect(sampling([{ name: "samplingPpi", value: 900, reliability: "firm", bound: "upper" }])).toBe("not-read");
  expect(sampling([{ name: "samplingPpi", value: 900, reliability: "firm", bound: "lower" }])).toBe("level");
});
