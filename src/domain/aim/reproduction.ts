import type { AimLimit } from "./aim.ts";
import { atLeast, atMost, FADGI_2016, targetAtLeast, targetAtMost } from "./limit.ts";

const ISO_B = "ISO 19264-1:2021, annex B, level B, as quoted by a third-party table";
const METAMORFOZE = "Metamorfoze 2.0 (2025), Light, as quoted by a Czech methodology";

/** What a file must be that the print is shown from at its own size, in a book or on a wall. */
export const REPRODUCTION_EDITION =
  "FADGI 2016, Prints and Photographs; ISO 19264-1:2021 level B and Metamorfoze 2.0 Light, both as quoted by others";

export const REPRODUCTION_LIMITS: readonly AimLimit[] = [
  atLeast("samplingPpi", { lowest: 150, best: 400, required: 294 }, 2, [
    "standard",
    "FADGI 2016, notes to Prints and Photographs: 300 ppi at original size is the minimum to reproduce a photograph well at its own size; less 2 % for the scale, as 36 CFR 1236.50 allows. Best: 400 ppi (3 star).",
  ]),
  atMost("clippedHighlightsPercent", { best: 0, highest: 4, required: 1 }, 2, [
    "own",
    "Own figure; twice what the preservation master is allowed.",
  ]),
  atMost("clippedShadowsPercent", { best: 0, highest: 8, required: 2 }, 1, [
    "own",
    "Own figure; twice what the preservation master is allowed.",
  ]),
  atMost("glareAreaPercent", { best: 0, highest: 8, required: 2 }, 4, [
    "own",
    "Own figure: glare is what a reader sees first. Comparison alone reads up to 1.4 % where there is none.",
  ]),
  atMost("borderGlarePercent", { best: 0, highest: 8, required: 2 }, 2, ["own", "Own figure: glare is what a reader sees first."]),
  atMost("keystonePercent", { best: 0, highest: 10, required: 5 }, 1, ["own", "Own figure: what straightening repairs with little loss."]),
  atLeast("detailCyPerMm", { lowest: 0.5, best: 6 }, 6, [
    "own",
    "Own figure: 6 cy/mm is half the sampling of 300 pixels per inch. Confirmed by other captures of the print, it outweighs what the edges read, which sharpening raises.",
  ]),
  atLeast("sfr50CyPerMm", { lowest: 0.5, best: 3.2 }, 3, [
    "own",
    "Worked out: 40 % of half the sampling at 400 ppi is 3.2 cy/mm. The print's own edges rank captures; they do not prove the figure.",
  ]),
  atLeast("effectiveBitDepth", { lowest: 0, best: 16, required: 8 }, 0.5, ["standard", `${FADGI_2016}: 8 or 16 bit.`]),
  atLeast("lossless", { lowest: -1, best: 1 }, 0.5, ["standard", `${FADGI_2016}: access files in any format; a JPEG counts half.`]),
  atLeast("jpegQuality", { lowest: 30, best: 95 }, 0.5, ["own", "Own figure."]),
  atMost("sharpeningOvershootPercent", { best: 5, highest: 30 }, 0.5, ["own", "Own figure: pages forgive a little sharpening."]),
  atMost("borderLightnessSpreadPercent", { best: 2, highest: 12 }, 2, [
    "own",
    `Own figure, beside ${FADGI_2016}: below 3 % (3 star), asked of a plain field.`,
  ]),
  atMost("borderCastChroma", { best: 20, highest: 50 }, 1, [
    "own",
    "Own figure: up to 20 may be the paper itself, yellowed or a tinted card, and counts for nothing.",
  ]),
  atMost("noiseDeltaL", { best: 1, highest: 5 }, 1, ["own", `Own figure, beside ${FADGI_2016}: below 2 (3 star), asked of a target.`]),
  targetAtMost("toneResponseDeltaL", 3, ["secondary", `${ISO_B}: at most 3.`]),
  targetAtMost("whiteBalanceDeltaAb", 4, ["secondary", `${ISO_B}: at most 4.`]),
  targetAtMost("colourAccuracyMeanDeltaE", 5, ["secondary", `${ISO_B}: at most 5.`]),
  targetAtMost("colourAccuracyMaximumDeltaE", 15, ["secondary", `${ISO_B}: at most 15.`]),
  targetAtMost("targetNoiseDeltaL", 2, ["secondary", `${ISO_B}: at most 2.`]),
  targetAtLeast("targetSfr10EfficiencyPercent", 80, ["secondary", `${ISO_B}: at least 80 %.`]),
  targetAtMost("targetPeakSfr", 1.05, ["secondary", `${METAMORFOZE}: at most 1.05.`]),
  targetAtMost("targetMisregistrationPx", 0.5, ["secondary", `${METAMORFOZE}: at most 0.5 px.`]),
  targetAtMost("reproductionScalePercent", 2, ["secondary", `${METAMORFOZE}: at most 2 %.`]),
];
