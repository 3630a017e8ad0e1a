import type { CatalogueEntry } from "./entry.ts";

/** Which of the print's tones the file still holds. */
export const TONE = {
  clippedHighlightsPercent: {
    label: "Clipped highlights",
    unit: "%",
    decimals: 2,
    better: "lower",
    region: "picture",
    version: 3,
    meaning: "Share of the picture with a channel stuck at its upper end: lost for good.",
  },
  clippedShadowsPercent: {
    label: "Clipped shadows",
    unit: "%",
    decimals: 2,
    better: "lower",
    region: "picture",
    version: 3,
    meaning: "Share of the picture with a channel stuck at its lower end: lost for good.",
  },
  tonalRangeDeltaL: {
    label: "Range of tones",
    unit: "L*",
    decimals: 1,
    better: "fact",
    region: "picture",
    version: 2,
    meaning:
      "Lightness between the darkest and the brightest tones of the picture; a faded print has a short range however well it was captured.",
  },
  missingLevelsPercent: {
    label: "Missing levels",
    unit: "%",
    decimals: 1,
    better: "lower",
    region: "picture",
    version: 2,
    meaning: "Share of the levels that are left out or doubled: a sign that tones or colours were changed in 8 bits after the capture.",
  },
} as const satisfies Record<string, CatalogueEntry>;
