import type { MeasureName } from "#domain/measure/catalogue.ts";

export type MeasureSubject = { readonly title: string; readonly names: readonly MeasureName[] };

/** What the measures speak of, in the order a keeper asks: where the print lies, how fine, how lit, which tones, what lies on it, what file. */
export const MEASURE_SUBJECTS: readonly MeasureSubject[] = [
  {
    title: "Place and scale",
    names: ["sidesSeen", "skewDegrees", "keystonePercent", "keystoneMm", "marginMm", "barrelPercent", "samplingPpi", "scaleErrorPercent"],
  },
  {
    title: "Sharpness",
    names: [
      "sfr50CyPerMm",
      "sfr10CyPerMm",
      "detailCyPerMm",
      "samplingEfficiencyPercent",
      "sharpeningOvershootPercent",
      "focusFalloffPercent",
      "focusFalloffDegrees",
      "motionMm",
      "misregistrationPx",
    ],
  },
  {
    title: "Light and glare",
    names: [
      "borderGlarePercent",
      "glareAreaPercent",
      "glarePeakDeltaL",
      "hazePercent",
      "evennessPercent",
      "borderLightnessSpreadPercent",
      "borderCastA",
      "borderCastB",
      "borderCastChroma",
    ],
  },
  {
    title: "Tones and noise",
    names: ["clippedHighlightsPercent", "clippedShadowsPercent", "tonalRangeDeltaL", "missingLevelsPercent", "noiseDeltaL"],
  },
  {
    title: "Streaks, rings and dust",
    names: ["streakCount", "streakDeltaL", "bandingDeltaL", "moirePercent", "ringAreaPercent", "dustPerCm2", "scratchLengthMm"],
  },
  {
    title: "What the file tells",
    names: ["effectiveBitDepth", "lossless", "jpegQuality", "doubleSaveSigma", "processingSignCount", "savedAgainCount"],
  },
];
