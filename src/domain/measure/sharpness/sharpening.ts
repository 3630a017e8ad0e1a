import { isLossyFile } from "../file/lossy-kinds.ts";
import { median } from "../numbers/robust.ts";
import type { MeasureContext, Reading } from "../reading.ts";
import { bestEdges, type PrintEdge } from "./print-edges.ts";
import type { EdgeResponse } from "./slanted-edge.ts";

/**
 * Sharpening by software, from how far the bright side of an edge rises above its own plateau: percent of the step, the
 * median of the usable sides. An edge that only blurred never overshoots. Above 2 % (and twice the plateau's scatter)
 * the capture is flagged. The peak of the response, the usual measure, stays at 1 for moderate sharpening; the ratio
 * SFR50 / SFR10 in the detail is a second sign above 0.60 (0.55 for a Gaussian blur).
 *
 * Its uncertainty: an edge that does not overshoot has a highest place all the same, of some ten independent ones on its plateau, which lies 1.5 of
 * their scatters above it, give or take 0.6 (Harter, Biometrika 48 (1961) 151, expected normal order statistics; from memory); a narrow peak is read
 * within 2 % of its height (edge-response.ts); and the sides may differ.
 *
 * Not told apart: a bright line along the paper's own edge. Lossy compression rings at edges too, by 1 % at JPEG quality 60 and 0.4 % at 85: below
 * the flag such a file is told as "at most".
 * Source: common practice, no source.
 */
export function sharpeningOf(
  edges: readonly PrintEdge[],
  file: Pick<MeasureContext, "fileKind" | "fileClaims">,
): { readonly flagged: boolean; readonly reading: Reading } {
  const responses = bestEdges(edges.filter((edge) => edge.refused === null))
    .map((edge) => edge.response)
    .filter((response) => response !== null);
  if (responses.length === 0)
    return { flagged: false, reading: { name: "sharpeningOvershootPercent", absent: "no edge of the print can be used" } };
  const overshoot = median(responses.map((response) => response.overshoot));
  const scatter = median(responses.map((response) => response.plateauSpread));
  const spread = Math.hypot(HIGHEST_OF_TEN * scatter, PEAK_SHARE * overshoot, deviation(responses.map((response) => response.overshoot)));
  const flagged = overshoot > LEAST_OVERSHOOT + 2 * scatter;
  const mayRing = isLossyFile(file) && !flagged;
  return {
    flagged,
    reading: {
      name: "sharpeningOvershootPercent",
      value: 100 * Math.max(0, overshoot),
      reliability: responses.length >= 3 ? "firm" : "fair",
      spread: 100 * spread,
      ...(mayRing && { bound: "upper", note: "The file's compression rings at edges as sharpening does, so that there may be less." }),
      ...(flagged && { note: "Edges overshoot as they do after sharpening; resolution read from them is too high." }),
      detail: {
        flagged,
        sides: responses.length,
        highestModulation: Math.max(...responses.map(peakOf)),
        sfr50ToSfr10: median(responses.flatMap(({ sfr50, sfr10 }) => (sfr50 !== null && sfr10 !== null ? [sfr50 / sfr10] : []))) || null,
      },
    },
  };
}

const LEAST_OVERSHOOT = 0.02;
/** √(1.54² + 0.59²) */
const HIGHEST_OF_TEN = 1.65;
const PEAK_SHARE = 0.02;

/** Of the mean of some values, by how they scatter; 0 of fewer than three. */
function deviation(values: readonly number[]): number {
  const count = values.length;
  if (count < 3) return 0;
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (count - 1) / count);
}

const peakOf = ({ frequencies, modulation }: EdgeResponse): number =>
  modulation.reduce((most, value, index) => ((frequencies[index] as number) <= 0.5 ? Math.max(most, value) : most), 0);
