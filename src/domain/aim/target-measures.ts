import { MEASURE_NAMES, MEASURES, type MeasureName } from "../measure/catalogue.ts";

/**
 * What standards ask of a capturing system and only a target of known values can prove. A capture
 * of a print alone shows none of these; they come from the target check of its set-up.
 * Meanings: FADGI 2016 and 36 CFR 1236.50, as laid down with each table.
 */
export const TARGET_MEASURE_NAMES = [
  "toneResponseDeltaL",
  "whiteBalanceDeltaAb",
  "lightnessUniformityPercent",
  "colourAccuracyMeanDeltaE",
  "colourAccuracy90thDeltaE",
  "colourAccuracyMaximumDeltaE",
  "targetMisregistrationPx",
  "targetSfr10EfficiencyPercent",
  "targetSfr50SharePercent",
  "cornerSfr50OfMiddlePercent",
  "cornerSfr10OfMiddlePercent",
  "targetPeakSfr",
  "targetNoiseDeltaL",
  "reproductionScalePercent",
] as const;

export type TargetMeasureName = (typeof TARGET_MEASURE_NAMES)[number];

export type TargetMeasure = { readonly label: string; readonly unit: string; readonly decimals: number; readonly meaning: string };

export const TARGET_MEASURES: Readonly<Record<TargetMeasureName, TargetMeasure>> = {
  toneResponseDeltaL: target("Tone response", "ΔL*", 1, "Difference in lightness between a grey patch and its picture, worst patch."),
  whiteBalanceDeltaAb: target("White balance", "ΔE(a*b*)", 1, "Colour that grey patches take on, worst patch."),
  lightnessUniformityPercent: target(
    "Evenness over the field",
    "%",
    1,
    "Standard deviation over mean of the lightness of a plain field that fills the frame.",
  ),
  colourAccuracyMeanDeltaE: target("Colour accuracy, mean", "ΔE2000", 1, "Mean colour difference over all patches of a target."),
  colourAccuracy90thDeltaE: target(
    "Colour accuracy, 90th percentile",
    "ΔE2000",
    1,
    "Colour difference that nine of ten patches stay under.",
  ),
  colourAccuracyMaximumDeltaE: target("Colour accuracy, worst patch", "ΔE*", 1, "Largest colour difference of any patch of a target."),
  targetMisregistrationPx: target("Misregistration of the colours", "px", 2, "How far red, green and blue lie apart at an edge."),
  targetSfr10EfficiencyPercent: target(
    "Sampling efficiency on a target",
    "%",
    0,
    "Where the contrast of a slanted edge falls to a tenth, in percent of half the sampling.",
  ),
  targetSfr50SharePercent: target(
    "SFR 50 % on a target",
    "%",
    0,
    "Where the contrast of a slanted edge falls to a half, in percent of half the sampling.",
  ),
  cornerSfr50OfMiddlePercent: target(
    "SFR 50 % in the worst corner",
    "%",
    0,
    "Where the contrast of a slanted edge falls to a half in the worst corner of the frame, in percent of the same in the middle.",
  ),
  cornerSfr10OfMiddlePercent: target(
    "SFR 10 % in the worst corner",
    "%",
    0,
    "Where the contrast of a slanted edge falls to a tenth in the worst corner of the frame, in percent of the same in the middle.",
  ),
  targetPeakSfr: target("Sharpening on a target", "", 2, "Largest contrast that a slanted edge is shown with; 1 is unsharpened."),
  targetNoiseDeltaL: target("Noise on a target", "L*", 1, "Standard deviation of lightness in an even patch, worst patch."),
  reproductionScalePercent: target(
    "Scale against a ruler",
    "%",
    1,
    "How far the pixels per inch the file claims are from those of a ruler in the frame.",
  ),
};

/** Label, unit and decimals of any measure an aim can name; null for one this version does not know. */
export function describeMeasure(name: string): { label: string; unit: string; decimals: number } | null {
  if (isPrintMeasure(name)) return MEASURES[name];
  return isTargetMeasure(name) ? TARGET_MEASURES[name] : null;
}

export const isPrintMeasure = (name: string): name is MeasureName => MEASURE_NAMES.some((known) => known === name);

export const isTargetMeasure = (name: string): name is TargetMeasureName => TARGET_MEASURE_NAMES.some((known) => known === name);

function target(label: string, unit: string, decimals: number, meaning: string): TargetMeasure {
  return { label, unit, decimals, meaning };
}
