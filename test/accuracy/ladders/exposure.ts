import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import type { Rgb } from "../../fixtures/picture-scenes.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const PPI = 200;
const BLUR_PX = 1;
/** Where a Gaussian blur of 1 px, exp(-2 π² σ² f²), falls to a half. */
const TRUE_SFR50 = (Math.sqrt(Math.LN2 / 2) / (Math.PI * BLUR_PX)) * (PPI / 25.4);

/** Light for which the paper (0.8, 0.79, 0.75) stays below white, and ever more of it; the blur stays the same. */
export const exposureLadder: Ladder = {
  defect: "paper exposed to white and beyond",
  reads: [{ measure: "sfr50CyPerMm", truth: () => TRUE_SFR50 }],
  levels: [0.8, 1, 1.2, 1.4, 1.8, 2.5],
  levelUnit: "times the light",
  draw: (level, seed) =>
    captureSheet({
      seed,
      ppi: PPI,
      blurPx: BLUR_PX,
      noise: 0.6,
      // under warm light red is clipped first
      cast: [1.15, 1, 0.85].map((share) => share * level) as Rgb,
      print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
    }),
};
