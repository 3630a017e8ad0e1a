import type { MeasureName } from "../measure/catalogue.ts";
import type { SourceStatus } from "./aim.ts";
import type { TargetMeasureName } from "./target-measures.ts";

/** A published table that rates systems of capture by levels, from the lowest to the highest. */
export type LevelTable = {
  readonly key: string;
  readonly name: string;
  readonly levels: readonly Level[];
  readonly rows: readonly LevelRow[];
};

export type Level = {
  readonly name: string;
  readonly status: SourceStatus;
  /** where this column was read */
  readonly source: string;
};

export type LevelRow = {
  /** what a capture of the print itself can prove, or what only a target can */
  readonly measure: MeasureName | TargetMeasureName;
  readonly sense: "at-least" | "at-most";
  /** one figure a level; null where it was not found */
  readonly figures: readonly (number | null)[];
  /** where a figure stands otherwise than the others of its column */
  readonly note?: string;
};

const atLeast = (measure: LevelRow["measure"], figures: LevelRow["figures"], note?: string): LevelRow => ({
  measure,
  sense: "at-least",
  figures,
  ...(note && { note }),
});
const atMost = (measure: LevelRow["measure"], figures: LevelRow["figures"], note?: string): LevelRow => ({
  measure,
  sense: "at-most",
  figures,
  ...(note && { note }),
});

const READ_2016 = "read in the text of the guideline";

const FADGI_2016: LevelTable = {
  key: "fadgi-2016",
  name: "FADGI, September 2016, Prints and Photographs",
  levels: [1, 2, 3, 4].map((stars) => ({ name: `${stars} star`, status: "standard", source: READ_2016 })),
  rows: [
    atLeast("samplingPpi", [100, 200, 400, 600]),
    atLeast("effectiveBitDepth", [8, 8, 8, 16], "The notes ask for 16 bit from 3 star on; the table allows 8."),
    atMost("toneResponseDeltaL", [8, 6, 4, 2]),
    atMost("whiteBalanceDeltaAb", [8, 6, 4, 2]),
    atMost("lightnessUniformityPercent", [8, 5, 3, 1]),
    atMost("colourAccuracyMeanDeltaE", [10, 6, 4, 2]),
    atMost("targetMisregistrationPx", [1.2, 0.8, 0.5, 0.33]),
    atLeast("targetSfr10EfficiencyPercent", [60, 70, 80, 90]),
    atLeast("targetSfr50SharePercent", [25, 30, 35, 40], "Upper ends: 95, 85, 75, 65."),
    atMost("targetPeakSfr", [1.3, 1.2, 1.1, 1]),
    atMost("targetNoiseDeltaL", [4, 3, 2, 1]),
    atMost("reproductionScalePercent", [3, 3, 2, 1]),
  ],
};

const FADGI_2023: LevelTable = {
  key: "fadgi-2023",
  name: "FADGI, third edition, May 2023, Prints and Photographs",
  levels: [
    { name: "1 star", status: "secondary", source: "as quoted by a third-party comparison, for bound general collections" },
    { name: "2 star", status: "secondary", source: "as quoted by a third-party comparison and a Czech methodology" },
    { name: "3 star", status: "secondary", source: "as quoted by a third-party comparison and a Czech methodology" },
    { name: "4 star", status: "secondary", source: "as quoted by a public project document" },
  ],
  rows: [
    atLeast("samplingPpi", [null, null, 392, 594], "400 and 600 pixels per inch less the tolerance of scale."),
    atLeast("effectiveBitDepth", [null, null, null, 16]),
    atMost("toneResponseDeltaL", [6, 4.5, 3, 1.5]),
    atMost("whiteBalanceDeltaAb", [8, 6, 4, 2]),
    atMost("lightnessUniformityPercent", [8, 5, 3, 1], "2 and 3 star are from memory."),
    atMost("colourAccuracyMeanDeltaE", [6.5, 5, 3.5, 2]),
    atMost("colourAccuracy90thDeltaE", [13, 10, 7, 4]),
    atMost("targetMisregistrationPx", [null, 0.8, 0.5, 0.33]),
    atLeast("targetSfr10EfficiencyPercent", [60, 70, 80, 90]),
    atLeast("targetSfr50SharePercent", [null, null, null, 45], "Upper end at 4 star: 65."),
    atMost("targetPeakSfr", [null, 1.1, 1.05, 1.02]),
    atMost("targetNoiseDeltaL", [4, 3, 2, 1], "Below 0.25 is a warning of smoothing."),
    atMost("reproductionScalePercent", [null, 3, 2, 1]),
  ],
};

const QUOTED_ISO = "as quoted by a third-party table of annex B";

const ISO_19264_1: LevelTable = {
  key: "iso-19264-1",
  name: "ISO 19264-1:2021, annex B",
  levels: ["C", "B", "A"].map((level) => ({ name: `level ${level}`, status: "secondary", source: QUOTED_ISO })),
  rows: [
    atMost("toneResponseDeltaL", [4, 3, 2]),
    atMost("whiteBalanceDeltaAb", [5, 4, 3]),
    atMost("colourAccuracyMeanDeltaE", [5, 5, 4]),
    atMost("colourAccuracyMaximumDeltaE", [15, 15, 10]),
    atLeast("targetSfr10EfficiencyPercent", [70, 80, 85]),
    atMost("targetNoiseDeltaL", [2.2, 2, 1.6]),
  ],
};

/** Published levels, held as they were read; limits of aims quote them. */
export const LEVEL_TABLES: readonly LevelTable[] = [FADGI_2016, FADGI_2023, ISO_19264_1];
