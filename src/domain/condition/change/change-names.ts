/** Numbers that tell how a print changed: newer less older. */
export const CHANGES = {
  borderDeltaL: { part: "border", label: "Border: lightness", unit: "L*", meaning: "Below nought: the paper became darker." },
  borderDeltaC: { part: "border", label: "Border: chroma", unit: "C*", meaning: "Above nought: the paper became more coloured." },
  borderDeltaH: { part: "border", label: "Border: hue", unit: "ΔH*", meaning: "How far the hue turned, as a distance in CIELAB." },
  borderDeltaB: { part: "border", label: "Border: yellow stain", unit: "b*", meaning: "Above nought: the paper became yellower." },
  borderDeltaE2000: { part: "border", label: "Border: colour difference", unit: "ΔE00", meaning: "CIEDE2000, all taken together." },
  borderRedDensityGain: {
    part: "border",
    label: "Border: density in red light",
    unit: "D",
    meaning: "Above nought: stain that takes away red light.",
  },
  borderGreenDensityGain: {
    part: "border",
    label: "Border: density in green light",
    unit: "D",
    meaning: "Above nought: stain that takes away green light.",
  },
  borderBlueDensityGain: { part: "border", label: "Border: density in blue light", unit: "D", meaning: "Above nought: yellow stain." },
  borderBalanceShift: {
    part: "border",
    label: "Border: colour balance",
    unit: "D",
    meaning: "Largest difference between the three densities above.",
  },
  pictureDeltaL: { part: "picture", label: "Picture: lightness", unit: "L*", meaning: "Above nought: the picture became lighter." },
  pictureDeltaC: { part: "picture", label: "Picture: chroma", unit: "C*", meaning: "Below nought: colours became paler." },
  pictureDeltaH: {
    part: "picture",
    label: "Picture: hue",
    unit: "ΔH*",
    meaning: "How far hues turned in the middle, as a distance in CIELAB.",
  },
  pictureDeltaE2000: { part: "picture", label: "Picture: colour difference", unit: "ΔE00", meaning: "CIEDE2000 of the middle place." },
  redDensityLoss: {
    part: "picture",
    label: "Picture: loss in red light (cyan dye)",
    unit: "D",
    meaning: "Lost of a density of 1.0 above the border.",
  },
  greenDensityLoss: {
    part: "picture",
    label: "Picture: loss in green light (magenta dye)",
    unit: "D",
    meaning: "Lost of a density of 1.0 above the border.",
  },
  blueDensityLoss: {
    part: "picture",
    label: "Picture: loss in blue light (yellow dye)",
    unit: "D",
    meaning: "Lost of a density of 1.0 above the border.",
  },
  densityBalanceShift: {
    part: "picture",
    label: "Picture: colour balance",
    unit: "D",
    meaning: "Largest difference between the three losses above.",
  },
  contrastChangePercent: { part: "picture", label: "Picture: contrast", unit: "%", meaning: "Change of the range of densities." },
} as const satisfies Record<string, { part: "border" | "picture"; label: string; unit: string; meaning: string }>;

export type ChangeName = keyof typeof CHANGES;
export const CHANGE_NAMES = Object.keys(CHANGES) as ChangeName[];
