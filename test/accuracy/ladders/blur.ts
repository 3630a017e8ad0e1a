import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { binned } from "../../fixtures/edits.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const PPI = 200;
/** Places each way in a pixel whose mean it is: the pixel's own aperture. */
const PLACES = 3;
/** Of a pixel, after the mean. */
const NOISE = 0.3;

/** Response at cycles per pixel of a lens that blurs by a Gaussian of so many px, times that of the mean over a pixel (Dirichlet's kernel). */
const responseAt = (blurPx: number, f: number) =>
  Math.exp(-2 * (Math.PI * blurPx * f) ** 2) * (Math.sin(Math.PI * f) / (PLACES * Math.sin((Math.PI * f) / PLACES)));

/** Where the response falls to a share, cycles per pixel, by halving; at most half the sampling, where reading ends. */
function fallTo(share: number, blurPx: number): number {
  let [low, high] = [1e-6, 0.5];
  if (responseAt(blurPx, high) > share) return high;
  for (let step = 0; step < 40; step++) {
    const middle = (low + high) / 2;
    if (responseAt(blurPx, middle) > share) low = middle;
    else high = middle;
  }
  return low;
}

/** The print's sides are exact steps, seen through the lens and summed up by square pixels. */
export const blurLadder: Ladder = {
  defect: "lens that blurs",
  reads: [
    { measure: "sfr50CyPerMm", truth: (level) => (fallTo(0.5, level) * PPI) / 25.4 },
    { measure: "sfr10CyPerMm", truth: (level) => (fallTo(0.1, level) * PPI) / 25.4 },
    { measure: "samplingEfficiencyPercent", truth: (level) => 200 * fallTo(0.1, level) },
  ],
  levels: [0.5, 0.8, 1.2, 2, 3],
  levelUnit: "px, standard deviation",
  draw: (level, seed) => {
    const fine = captureSheet({
      seed,
      ppi: PPI * PLACES,
      bedPxPerMm: (PPI * PLACES) / 25.4,
      blurPx: level * PLACES,
      noise: NOISE * PLACES,
      turnDeg: 2.5 + (seed % 3),
      bits: 16,
      print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
    });
    return { picture: binned(fine.picture, PLACES), context: fine.context };
  },
};
