import type { AimLimit } from "./aim.ts";
import { atLeast, atMost, FADGI_2016, targetAtLeast, targetAtMost } from "./limit.ts";

const CFR_TABLE = "36 CFR 1236.50, table 2 (photographic prints)";

/** What a file must be that stands for the print when the print is gone. */
export const PRESERVATION_MASTER_EDITION =
  "36 CFR 1236.46 to 1236.50, table 2; FADGI 2016 and 2023, Prints and Photographs; Metamorfoze 2.0 (2025)";

export const PRESERVATION_MASTER_LIMITS: readonly AimLimit[] = [
  atLeast("lossless", { lowest: 0, best: 1, required: 1 }, 1, [
    "standard",
    "36 CFR 1236.48: TIFF, lossless JPEG 2000 or PNG; no JPEG for photographic prints.",
  ]),
  atLeast("effectiveBitDepth", { lowest: 0, best: 16, required: 8 }, 1, [
    "standard",
    `${CFR_TABLE}: 8 or 16 bit. Best: ${FADGI_2016}, note: masters in 16 bit from 3 star on.`,
  ]),
  atLeast("samplingPpi", { lowest: 200, best: 600, required: 392 }, 3, [
    "standard",
    `${CFR_TABLE}: at least 392 ppi (400 less 2 %). Ends: ${FADGI_2016}, 200 ppi (2 star) and 600 ppi (4 star).`,
  ]),
  atLeast("sidesSeen", { lowest: 2, best: 4, required: 4 }, 1, [
    "secondary",
    "Metamorfoze 2.0: a margin of 3 to 5 mm round the original, as quoted by a Czech methodology.",
  ]),
  atMost("clippedHighlightsPercent", { best: 0, highest: 2, required: 0.5 }, 2, [
    "own",
    "Own figure. 36 CFR 1236.46(d)(3) lists clipping among the defects; Metamorfoze: all that is visible in the original must be visible in the master.",
  ]),
  atMost("clippedShadowsPercent", { best: 0, highest: 4, required: 1 }, 2, [
    "own",
    "Own figure. 36 CFR 1236.46(d)(3) lists clipping among the defects; Metamorfoze: all that is visible in the original must be visible in the master.",
  ]),
  atMost("glareAreaPercent", { best: 0, highest: 8, required: 2 }, 3, [
    "own",
    "Own figure. 36 CFR 1236.46(d)(3) lists flare among the defects; comparison alone reads up to 1.4 % where there is none.",
  ]),
  atMost("borderGlarePercent", { best: 0, highest: 8, required: 2 }, 2, [
    "own",
    "Own figure. 36 CFR 1236.46(d)(3) lists flare among the defects.",
  ]),
  atMost("keystonePercent", { best: 0, highest: 6, required: 2 }, 1, [
    "secondary",
    "Metamorfoze 2.0: geometric distortion at most 2 %, as quoted by a Czech methodology; opposite sides stand for it here.",
  ]),
  atMost("skewDegrees", { best: 1, highest: 6 }, 0.5, [
    "secondary",
    "Metamorfoze 2.0: skew of loose sheets about 1°, as quoted by a Czech methodology.",
  ]),
  atLeast("detailCyPerMm", { lowest: 1, best: 8 }, 6, [
    "own",
    "Own figure: prints were seen to hold detail up to about 8 cy/mm. Confirmed by other captures of the print, it outweighs what the edges read, which sharpening raises.",
  ]),
  atLeast("sfr50CyPerMm", { lowest: 1, best: 5.3 }, 3, [
    "own",
    "Worked out: 45 % of half the sampling at 600 ppi (4 star, 2023, as quoted) is 5.3 cy/mm. The print's own edges rank captures; they do not prove the figure.",
  ]),
  atLeast("samplingEfficiencyPercent", { lowest: 30, best: 90 }, 1, [
    "standard",
    `${FADGI_2016}: above 90 % (4 star), asked of a target. The print's own edges rank captures; they do not prove the figure.`,
  ]),
  atMost("sharpeningOvershootPercent", { best: 2, highest: 20 }, 1, [
    "own",
    "Own figure: an overshoot of 2 % is what noise alone can look like.",
  ]),
  atMost("borderLightnessSpreadPercent", { best: 1, highest: 8 }, 1, [
    "standard",
    `${FADGI_2016}: below 1 % (4 star) to 8 % (1 star), asked of a plain field. The border ranks captures; it does not prove the figure.`,
  ]),
  atMost("borderCastChroma", { best: 20, highest: 50 }, 0.5, [
    "own",
    "Own figure: up to 20 may be the paper itself, yellowed or a tinted card, and counts for nothing.",
  ]),
  atMost("noiseDeltaL", { best: 1, highest: 4 }, 1, [
    "standard",
    `${FADGI_2016}: below 1 (4 star) to 4 (1 star), asked of a target. The border ranks captures; it does not prove the figure.`,
  ]),
  targetAtMost("toneResponseDeltaL", 4, ["standard", `${CFR_TABLE}: ±4. FADGI 2023 asks below 3 at 3 star, as quoted.`]),
  targetAtMost("whiteBalanceDeltaAb", 4, ["standard", `${CFR_TABLE}: at most 4.`]),
  targetAtMost("lightnessUniformityPercent", 3, ["standard", `${CFR_TABLE}: below 3 %.`]),
  targetAtMost("colourAccuracyMeanDeltaE", 3.5, ["standard", `${CFR_TABLE}: below 3.5.`]),
  targetAtMost("colourAccuracy90thDeltaE", 8.75, ["standard", `${CFR_TABLE}: below 8.75. FADGI 2023 asks below 7 at 3 star, as quoted.`]),
  targetAtMost("targetMisregistrationPx", 0.5, ["standard", `${CFR_TABLE}: below 0.5 px.`]),
  targetAtLeast("targetSfr10EfficiencyPercent", 80, [
    "standard",
    `${CFR_TABLE}: 80 % (the sign is missing in print; FADGI 2016 has “above”).`,
  ]),
  targetAtLeast("targetSfr50SharePercent", 40, ["standard", `${CFR_TABLE}: above 40 % and below 75 % of half the sampling.`], 75),
  targetAtMost("targetPeakSfr", 1.1, ["standard", `${CFR_TABLE}: below 1.1. FADGI 2023 asks below 1.05 at 3 star, as quoted.`]),
  targetAtMost("targetNoiseDeltaL", 2, ["standard", `${CFR_TABLE}: below 2; below 0.25 is a warning of smoothing.`]),
  targetAtMost("reproductionScalePercent", 2, ["standard", `${CFR_TABLE}: within ±2 %.`]),
];
