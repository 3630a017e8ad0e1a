/**
 * Every measure the program knows, in the order a keeper reads them. A measure's formula and
 * source stand on top of its own file; this is what screens, aims and exports need to name it.
 */
export type MeasureDefinition = {
  readonly name: MeasureName;
  readonly label: string;
  readonly unit: string;
  readonly decimals: number;
  /** one sentence for the keeper: what the number says */
  readonly meaning: string;
  /** which way is better on its own; "fact" is neither */
  readonly better: "higher" | "lower" | "fact";
  /** which part of the capture it is read from */
  readonly region: RegionOfCapture;
  /** grows by one when the method changes, so that old values are told from new ones */
  readonly version: number;
};

export type RegionOfCapture = "frame" | "sheet" | "picture" | "border" | "edges" | "file";

export const MEASURE_NAMES = [
  "sidesSeen",
  "skewDegrees",
  "keystonePercent",
  "samplingPpi",
  "scaleErrorPercent",
  "sfr50CyPerMm",
  "sfr10CyPerMm",
  "samplingEfficiencyPercent",
  "sharpeningOvershootPercent",
  "clippedHighlightsPercent",
  "clippedShadowsPercent",
  "tonalRangeDeltaL",
  "missingLevelsPercent",
  "borderGlarePercent",
  "glareAreaPercent",
  "evennessPercent",
  "borderLightnessSpreadPercent",
  "borderCastA",
  "borderCastB",
  "borderCastChroma",
  "noiseDeltaL",
  "streakCount",
  "streakDeltaL",
  "bandingDeltaL",
  "misregistrationPx",
  "effectiveBitDepth",
  "lossless",
  "jpegQuality",
] as const;

export type MeasureName = (typeof MEASURE_NAMES)[number];

const REGIONS: Readonly<Record<MeasureName, RegionOfCapture>> = {
  sidesSeen: "frame",
  skewDegrees: "sheet",
  keystonePercent: "sheet",
  samplingPpi: "sheet",
  scaleErrorPercent: "sheet",
  sfr50CyPerMm: "edges",
  sfr10CyPerMm: "edges",
  samplingEfficiencyPercent: "edges",
  sharpeningOvershootPercent: "edges",
  clippedHighlightsPercent: "picture",
  clippedShadowsPercent: "picture",
  tonalRangeDeltaL: "picture",
  missingLevelsPercent: "picture",
  borderGlarePercent: "border",
  glareAreaPercent: "picture",
  evennessPercent: "border",
  borderLightnessSpreadPercent: "border",
  borderCastA: "border",
  borderCastB: "border",
  borderCastChroma: "border",
  noiseDeltaL: "border",
  streakCount: "border",
  streakDeltaL: "border",
  bandingDeltaL: "border",
  misregistrationPx: "edges",
  effectiveBitDepth: "file",
  lossless: "file",
  jpegQuality: "file",
};

export const MEASURES: Readonly<Record<MeasureName, MeasureDefinition>> = {
  sidesSeen: measure(
    "sidesSeen",
    "Sides of the sheet seen",
    "of 4",
    0,
    "higher",
    "How many sides of the sheet lie whole inside the frame.",
  ),
  skewDegrees: measure("skewDegrees", "Skew", "°", 2, "lower", "How far the print is turned in the frame."),
  keystonePercent: measure(
    "keystonePercent",
    "Keystone",
    "%",
    2,
    "lower",
    "How much longer one side looks than the side opposite, because the camera was tilted.",
  ),
  samplingPpi: measure(
    "samplingPpi",
    "Sampling",
    "ppi",
    0,
    "higher",
    "Pixels per inch of the print itself, read from its size; the lower of the two directions.",
  ),
  scaleErrorPercent: measure(
    "scaleErrorPercent",
    "Scale error of the file",
    "%",
    1,
    "lower",
    "How far the pixels per inch the file claims are from those measured.",
  ),
  sfr50CyPerMm: measure(
    "sfr50CyPerMm",
    "SFR 50 %",
    "cy/mm",
    2,
    "higher",
    "The finest pattern still shown at half contrast, from the print's own edges.",
  ),
  sfr10CyPerMm: measure(
    "sfr10CyPerMm",
    "SFR 10 %",
    "cy/mm",
    2,
    "higher",
    "The finest pattern still shown at a tenth of its contrast, from the print's own edges.",
  ),
  samplingEfficiencyPercent: measure(
    "samplingEfficiencyPercent",
    "Sampling efficiency",
    "%",
    0,
    "higher",
    "How much of what the pixels could hold is really there.",
  ),
  sharpeningOvershootPercent: measure(
    "sharpeningOvershootPercent",
    "Sharpening overshoot",
    "%",
    1,
    "lower",
    "How far edges overshoot: a sign that software sharpened the file.",
  ),
  clippedHighlightsPercent: measure(
    "clippedHighlightsPercent",
    "Clipped highlights",
    "%",
    2,
    "lower",
    "Share of the picture with a channel stuck at its upper end: lost for good.",
  ),
  clippedShadowsPercent: measure(
    "clippedShadowsPercent",
    "Clipped shadows",
    "%",
    2,
    "lower",
    "Share of the picture with a channel stuck at its lower end: lost for good.",
  ),
  tonalRangeDeltaL: measure(
    "tonalRangeDeltaL",
    "Range of tones",
    "L*",
    1,
    "fact",
    "Lightness between the darkest and the brightest tones of the picture; a faded print has a short range however well it was captured.",
  ),
  missingLevelsPercent: measure(
    "missingLevelsPercent",
    "Missing levels",
    "%",
    1,
    "lower",
    "Share of the levels that are left out or doubled: a sign that tones or colours were changed in 8 bits after the capture.",
  ),
  borderGlarePercent: measure(
    "borderGlarePercent",
    "Glare on the border",
    "%",
    1,
    "lower",
    "Share of the plain border that shines: certain, because the border is known to be plain.",
  ),
  glareAreaPercent: measure(
    "glareAreaPercent",
    "Glare",
    "%",
    1,
    "lower",
    "Share of the picture that shines. From one capture alone only possible glare, since a pale wall looks the same; certain by comparison with another capture.",
  ),
  evennessPercent: measure(
    "evennessPercent",
    "Loss of light",
    "%",
    1,
    "lower",
    "How much less light the darkest place of the border gets than the brightest; 0 is even.",
  ),
  borderLightnessSpreadPercent: measure(
    "borderLightnessSpreadPercent",
    "Unevenness of light",
    "%",
    1,
    "lower",
    "How much the light varies along the border: standard deviation of L* over its mean.",
  ),
  borderCastA: measure(
    "borderCastA",
    "Border, green to red",
    "a*",
    1,
    "fact",
    "Colour of the border between green (below 0) and red (above 0); light and aged paper together.",
  ),
  borderCastB: measure(
    "borderCastB",
    "Border, blue to yellow",
    "b*",
    1,
    "fact",
    "Colour of the border between blue (below 0) and yellow (above 0); light and aged paper together.",
  ),
  borderCastChroma: measure(
    "borderCastChroma",
    "Colour of the border",
    "C*",
    1,
    "lower",
    "How far the border is from neutral; light and aged paper together.",
  ),
  noiseDeltaL: measure(
    "noiseDeltaL",
    "Noise",
    "L*",
    2,
    "lower",
    "Grain of the capture in plain border patches, as standard deviation of L*.",
  ),
  streakCount: measure(
    "streakCount",
    "Streaks",
    "",
    0,
    "lower",
    "Lines that run straight through the frame and through both opposite borders of the print: dirt on the sensor strip or on its glass.",
  ),
  streakDeltaL: measure(
    "streakDeltaL",
    "Strongest streak",
    "L*",
    2,
    "lower",
    "How much lighter or darker the strongest streak is than what lies beside it.",
  ),
  bandingDeltaL: measure(
    "bandingDeltaL",
    "Banding",
    "L*",
    2,
    "lower",
    "How much lines at even distances, from the transport or a flickering lamp, swing from the mean lightness of the border.",
  ),
  misregistrationPx: measure(
    "misregistrationPx",
    "Misregistration of the colours",
    "px",
    2,
    "lower",
    "How far red, green and blue lie apart at the edges of the sheet.",
  ),
  effectiveBitDepth: measure(
    "effectiveBitDepth",
    "Bit depth in fact",
    "bit",
    0,
    "higher",
    "Bits per channel the values really use, whatever the file says.",
  ),
  lossless: measure(
    "lossless",
    "Lossless file",
    "",
    0,
    "higher",
    "1 when the file keeps every value, 0 when its compression throws some away.",
  ),
  jpegQuality: measure("jpegQuality", "JPEG quality", "of 100", 0, "higher", "Quality on the common scale, from the file's own tables."),
};

function measure(
  name: MeasureName,
  label: string,
  unit: string,
  decimals: number,
  better: MeasureDefinition["better"],
  meaning: string,
): MeasureDefinition {
  return { name, label, unit, decimals, better, meaning, region: REGIONS[name], version: 1 };
}
