import type { CatalogueEntry } from "./entry.ts";

/** What the light on the print was: reflections, haze, evenness, colour. */
export const LIGHT = {
  borderGlarePercent: {
    label: "Glare on the border",
    unit: "%",
    decimals: 1,
    better: "lower",
    region: "border",
    version: 2,
    meaning: "Share of the plain border that shines. What is bright in the picture may belong to it; on a plain border it does not.",
  },
  glareAreaPercent: {
    label: "Glare",
    unit: "%",
    decimals: 1,
    better: "lower",
    region: "sheet",
    version: 9,
    meaning:
      "Share of the print that shines. From one capture alone certain on the plain border and where it is brighter than paper can be, elsewhere only possible glare, since a pale wall looks the same; by comparison with another capture certain in the picture, whose border is not compared. What was mirrored, a window or a lamp, is told where its shape tells.",
  },
  glarePeakDeltaL: {
    label: "Strongest glare",
    unit: "L*",
    decimals: 1,
    better: "lower",
    region: "sheet",
    version: 5,
    meaning: "The largest lightness that glare adds anywhere.",
  },
  hazePercent: {
    label: "Haze",
    unit: "%",
    decimals: 1,
    better: "lower",
    region: "picture",
    version: 3,
    meaning:
      "Stray light over the whole print, as black over white; from one capture at most this, since the print's own black is in it; by comparison, what it has more than the clearest capture.",
  },
  evennessPercent: {
    label: "Loss of light",
    unit: "%",
    decimals: 1,
    better: "lower",
    region: "border",
    version: 4,
    meaning: "How much less light the darkest place of the border gets than the brightest, or by comparison of the picture; 0 is even.",
  },
  borderLightnessSpreadPercent: {
    label: "Unevenness of light",
    unit: "%",
    decimals: 1,
    better: "lower",
    region: "border",
    version: 2,
    meaning: "How much the light varies along the border: standard deviation of L* over its mean.",
  },
  borderCastA: {
    label: "Border, green to red",
    unit: "a*",
    decimals: 1,
    better: "fact",
    region: "border",
    version: 4,
    meaning: "Colour of the border between green (below 0) and red (above 0); light and aged paper together.",
  },
  borderCastB: {
    label: "Border, blue to yellow",
    unit: "b*",
    decimals: 1,
    better: "fact",
    region: "border",
    version: 4,
    meaning: "Colour of the border between blue (below 0) and yellow (above 0); light and aged paper together.",
  },
  borderCastChroma: {
    label: "Colour of the border",
    unit: "C*",
    decimals: 1,
    better: "lower",
    region: "border",
    version: 4,
    meaning:
      "How far the border is from neutral; light and aged paper together. It is not held against the white that such a border had when new or has at its age: no published figures of that were found.",
  },
} as const satisfies Record<string, CatalogueEntry>;
