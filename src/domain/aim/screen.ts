import type { AimLimit } from "./aim.ts";
import { atLeast, atMost, FADGI_2016, targetAtMost } from "./limit.ts";

/** What a file must be that the print is looked at on a screen: lenient, any kind of file. */
export const SCREEN_EDITION = "Own figures; FADGI 2016, Prints and Photographs, for what only a target proves";

export const SCREEN_LIMITS: readonly AimLimit[] = [
  atLeast("samplingPpi", { lowest: 72, best: 300, required: 150 }, 1, ["own", "Own figure: a small print then fills half a screen."]),
  atMost("clippedHighlightsPercent", { best: 0, highest: 10 }, 1, ["own", "Own figure."]),
  atMost("clippedShadowsPercent", { best: 0, highest: 10 }, 0.5, ["own", "Own figure."]),
  atMost("glareAreaPercent", { best: 0, highest: 10 }, 4, ["own", "Own figure: glare is what a viewer sees first."]),
  atMost("borderGlarePercent", { best: 0, highest: 10 }, 2, ["own", "Own figure: glare is what a viewer sees first."]),
  atMost("keystonePercent", { best: 0, highest: 15 }, 1, ["own", "Own figure."]),
  atMost("skewDegrees", { best: 1, highest: 15 }, 0.5, ["own", "Own figure."]),
  atLeast("detailCyPerMm", { lowest: 0.2, best: 5 }, 4, [
    "own",
    "Own figure: what is left to enlarge a print from on a screen. Confirmed by other captures of the print, it outweighs what the edges read, which sharpening raises.",
  ]),
  atLeast("sfr50CyPerMm", { lowest: 0.2, best: 2 }, 2, ["own", "Own figure: what 100 to 200 pixels per inch can show."]),
  atMost("borderLightnessSpreadPercent", { best: 2, highest: 15 }, 1, ["own", "Own figure."]),
  atMost("borderCastChroma", { best: 20, highest: 50 }, 1, [
    "own",
    "Own figure: up to 20 may be the paper itself, yellowed or a tinted card, and counts for nothing.",
  ]),
  targetAtMost("toneResponseDeltaL", 6, ["standard", `${FADGI_2016}, 2 star: at most 6.`]),
  targetAtMost("whiteBalanceDeltaAb", 6, ["standard", `${FADGI_2016}, 2 star: at most 6.`]),
  targetAtMost("colourAccuracyMeanDeltaE", 6, ["standard", `${FADGI_2016}, 2 star: below 6.`]),
];
