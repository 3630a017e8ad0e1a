import { linearToSrgb, srgbToLinear } from "#domain/measure/colour/srgb.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { sharpened } from "../../fixtures/edits.ts";
import { normalCdf } from "../../fixtures/picture-scenes.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
/** Darker than paper is, so that what overshoots is not cut off at white. */
const PAPER = 0.45;
const GROUND = 0.03;
const BLUR_PX = 0.8;
/** The mask's Gaussian of 1 px. */
const KERNEL = [0.06, 0.244, 0.392, 0.244, 0.06];

/**
 * How far the bright side of one noiseless edge rises above its plateau, percent of the step, worked out along a line across it: step
 * response of the blur in light, turned into codes, the mask's sum over codes a whole px apart, and back into light.
 */
function overshootOf(strength: number): number {
  const codeAt = (xPx: number) => linearToSrgb(GROUND + (PAPER - GROUND) * normalCdf(xPx / BLUR_PX));
  let highest = PAPER;
  for (let x = 0; x < 6; x += 0.01) {
    const soft = KERNEL.reduce((sum, weight, k) => sum + weight * codeAt(x + k - 2), 0);
    highest = Math.max(highest, srgbToLinear(codeAt(x) + strength * (codeAt(x) - soft)));
  }
  return (100 * (highest - PAPER)) / (PAPER - GROUND);
}

export const sharpeningLadder: Ladder = {
  defect: "sharpened by an unsharp mask of 1 px",
  reads: [{ measure: "sharpeningOvershootPercent", truth: overshootOf }],
  levels: [0, 0.25, 0.5, 1, 2],
  levelUnit: "times the mask",
  draw: (level, seed) => {
    const drawn = captureSheet({
      seed,
      blurPx: BLUR_PX,
      ground: [GROUND, GROUND, GROUND],
      turnDeg: 2 + (seed % 3),
      print: { ...SMALL, paper: [PAPER, PAPER, PAPER], content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
    });
    return { ...drawn, picture: sharpened(drawn.picture, level) };
  },
};
