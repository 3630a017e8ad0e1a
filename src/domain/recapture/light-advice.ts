import { z } from "zod";
import type { MeasureName } from "../measure/catalogue.ts";
import { areaOf } from "../measure/lines.ts";
import { loopsInFrame, patchLoops } from "../measure/marked-area.ts";
import type { Point } from "../measure/picture.ts";
import type { Loop } from "../measure/planes/mask-contours.ts";
import type { Advice } from "./recapture-line.ts";
import { presentIn, pxPerMmOf, type SeenCapture } from "./seen-capture.ts";

/**
 * A flat mirror under a lens that looks straight down: a shine at p from the point below the lens comes from a light on the same side,
 * at 2 p from the axis where it hangs as high as the lens, and at (1 + n) p where it hangs n times as high.
 */
export function whereTheLightStands(seen: SeenCapture, name: MeasureName): Advice | null {
  const pxPerMm = pxPerMmOf(seen);
  const loops = patchLoops(loopsInFrame(seen.areas.get(name) ?? [], seen.outline, seen.frame));
  const patch = largestPatch(loops);
  if (!seen.isCamera || !seen.isWholeFrame || pxPerMm === null || !patch) return null;
  const at = middleOf(patch);
  const x = (at.x - (seen.frame.widthPx - 1) / 2) / pxPerMm;
  const y = (at.y - (seen.frame.heightPx - 1) / 2) / pxPerMm;
  const away = Math.hypot(x, y);
  const source = "law of reflection, for a flat print and a lens over the middle of the frame";
  if (away < NEAR_THE_AXIS_MM)
    return {
      sentence: "It shines in the middle of the frame: the light comes from the camera itself, from its flash or from right above.",
      source,
    };
  return {
    sentence: `The largest shine lies ${placeInWords(x, y)} of the middle of the frame, so the light stands on that side: ${(2 * away).toFixed(0)} mm beside the lens if it hangs as high as the lens, ${(4 * away).toFixed(0)} mm if it hangs three times as high. Move it farther out, or shade it there.`,
    source,
  };
}

const NEAR_THE_AXIS_MM = 5;

function placeInWords(x: number, y: number): string {
  const parts = [
    ...(Math.abs(y) >= 1 ? [`${Math.abs(y).toFixed(0)} mm ${y < 0 ? "above" : "below"}`] : []),
    ...(Math.abs(x) >= 1 ? [`${Math.abs(x).toFixed(0)} mm to the ${x < 0 ? "left" : "right"}`] : []),
  ];
  return parts.join(" and ");
}

const largestPatch = (loops: readonly Loop[]): Loop | null => loops.toSorted((a, b) => areaOf(b) - areaOf(a))[0] ?? null;

/** Centre of gravity of a simple outline. */
function middleOf(loop: Loop): Point {
  let [x, y] = [0, 0];
  for (const [index, from] of loop.entries()) {
    const to = loop[(index + 1) % loop.length] ?? from;
    const cross = from.x * to.y - to.x * from.y;
    x += (from.x + to.x) * cross;
    y += (from.y + to.y) * cross;
  }
  const six = 6 * areaOf(loop);
  return { x: x / six, y: y / six };
}

const corners = z.object({
  corners: z.object({ topLeft: z.number(), topRight: z.number(), bottomRight: z.number(), bottomLeft: z.number() }),
});
const CORNER_WORDS = { topLeft: "upper left", topRight: "upper right", bottomRight: "lower right", bottomLeft: "lower left" } as const;
type Corner = keyof typeof CORNER_WORDS;

/** Which corner is lit least, and by how much. */
export function darkestCorner(seen: SeenCapture): Advice | null {
  const read = corners.safeParse(presentIn(seen, "borderLightnessSpreadPercent")?.detail);
  if (!read.success) return null;
  const byLight = (Object.entries(read.data.corners) as [Corner, number][]).toSorted((a, b) => a[1] - b[1]);
  const [darkest, brightest] = [byLight[0], byLight.at(-1)];
  if (!darkest || !brightest || brightest[1] <= 0) return null;
  const share = Math.round((100 * darkest[1]) / brightest[1]);
  if (share >= 99) return null;
  const cure = seen.isCamera
    ? `Move the lamp of the ${CORNER_WORDS[brightest[0]]} farther away, or bring light to the ${CORNER_WORDS[darkest[0]]}.`
    : "Lay the print elsewhere on the bed.";
  return {
    sentence: `The ${CORNER_WORDS[darkest[0]]} corner gets ${share} % of the light of the ${CORNER_WORDS[brightest[0]]} one. ${cure}`,
    source: "the light on the border, as read; paper that has aged unevenly reads the same",
  };
}
