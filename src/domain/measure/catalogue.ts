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
  /** read from the capture alone, or by comparison with the print's other captures */
  readonly family: "alone" | "together";
  /** grows by one when the method changes, so that old values are told from new ones */
  readonly version: number;
};

export const MEASURE_NAMES = [
  "sides-seen",
  "skew",
  "keystone",
  "sampling",
  "scale-error",
  "sfr50",
  "sfr10",
  "sampling-efficiency",
  "sharpening",
  "clipped-highlights",
  "clipped-shadows",
  "border-glare",
  "possible-glare",
  "glare",
  "border-evenness",
  "border-cast",
  "noise",
  "bit-depth",
  "lossless",
  "jpeg-quality",
] as const;

export type MeasureName = (typeof MEASURE_NAMES)[number];

export const MEASURES: Readonly<Record<MeasureName, MeasureDefinition>> = {
  "sides-seen": measure(
    "sides-seen",
    "Sides of the sheet seen",
    "of 4",
    0,
    "higher",
    "How many sides of the sheet lie whole inside the frame.",
  ),
  skew: measure("skew", "Skew", "°", 2, "lower", "How far the print is turned in the frame."),
  keystone: measure(
    "keystone",
    "Keystone",
    "%",
    2,
    "lower",
    "How much longer one side looks than the side opposite, because the camera was tilted.",
  ),
  sampling: measure(
    "sampling",
    "Sampling",
    "ppi",
    0,
    "higher",
    "Pixels per inch of the print itself, read from its size; the lower of the two directions.",
  ),
  "scale-error": measure(
    "scale-error",
    "Scale error of the file",
    "%",
    1,
    "lower",
    "How far the pixels per inch the file claims are from those measured.",
  ),
  sfr50: measure("sfr50", "SFR 50 %", "cy/mm", 2, "higher", "The finest pattern still shown at half contrast, from the print's own edges."),
  sfr10: measure(
    "sfr10",
    "SFR 10 %",
    "cy/mm",
    2,
    "higher",
    "The finest pattern still shown at a tenth of its contrast, from the print's own edges.",
  ),
  "sampling-efficiency": measure(
    "sampling-efficiency",
    "Sampling efficiency",
    "%",
    0,
    "higher",
    "How much of what the pixels could hold is really there.",
  ),
  sharpening: measure(
    "sharpening",
    "Sharpening overshoot",
    "%",
    1,
    "lower",
    "How far edges overshoot: a sign that software sharpened the file.",
  ),
  "clipped-highlights": measure(
    "clipped-highlights",
    "Clipped highlights",
    "%",
    2,
    "lower",
    "Share of the picture with a channel stuck at its upper end: lost for good.",
  ),
  "clipped-shadows": measure(
    "clipped-shadows",
    "Clipped shadows",
    "%",
    2,
    "lower",
    "Share of the picture with a channel stuck at its lower end: lost for good.",
  ),
  "border-glare": measure(
    "border-glare",
    "Glare on the border",
    "%",
    1,
    "lower",
    "Share of the plain border that shines: certain, because the border is known to be plain.",
  ),
  "possible-glare": measure(
    "possible-glare",
    "Possible glare",
    "%",
    1,
    "fact",
    "Share of the picture that is bright, plain and colourless: glare or a pale wall, one capture cannot tell.",
  ),
  glare: measure(
    "glare",
    "Glare by comparison",
    "%",
    1,
    "lower",
    "Share of the picture that shines here and not in another capture of the same print.",
    "together",
  ),
  "border-evenness": measure(
    "border-evenness",
    "Unevenness of light",
    "%",
    1,
    "lower",
    "How much the light varies along the border: standard deviation of L* over its mean.",
  ),
  "border-cast": measure(
    "border-cast",
    "Colour of the border",
    "C*",
    1,
    "lower",
    "How far the border is from neutral; light and aged paper together.",
  ),
  noise: measure("noise", "Noise", "L*", 2, "lower", "Grain of the capture in plain border patches, as standard deviation of L*."),
  "bit-depth": measure(
    "bit-depth",
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
  "jpeg-quality": measure(
    "jpeg-quality",
    "JPEG quality",
    "of 100",
    0,
    "higher",
    "Quality on the common scale, from the file's own tables.",
  ),
};

function measure(
  name: MeasureName,
  label: string,
  unit: string,
  decimals: number,
  better: MeasureDefinition["better"],
  meaning: string,
  family: MeasureDefinition["family"] = "alone",
): MeasureDefinition {
  return { name, label, unit, decimals, better, meaning, family, version: 1 };
}
