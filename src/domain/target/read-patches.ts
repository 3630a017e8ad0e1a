import { type Lab, labOf, lightnessOf } from "../measure/colour/lab.ts";
import { type Homography, project } from "../measure/homography.ts";
import { luminanceAt, type Picture, xyzAt } from "../measure/picture.ts";
import type { Placed } from "./layout.ts";

export type PatchRead = {
  readonly id: string;
  readonly colour: Lab;
  /** standard deviation of L* from pixel to pixel */
  readonly noise: number;
  readonly pixels: number;
  /** share of pixels with a channel at its end */
  readonly clipped: number;
};

/** Part of a patch that is looked at: its rim may hold the blur of the next one, or a line. */
const MIDDLE = 0.6;
/** Pixels looked at in a patch, at the most, as a square. */
const MOST_ACROSS = 60;
const FEWEST_PIXELS = 25;

/** Mean colour and noise of a patch's middle; null where it is cut off by the frame or only a few pixels large. */
export function readPatch(picture: Picture, fromMm: Homography, patch: Placed): PatchRead | null {
  const across = countAcross(fromMm, patch);
  let [x, y, z] = [0, 0, 0];
  let [sum, squares, clipped] = [0, 0, 0];
  const seen = new Set<number>();
  for (let row = 0; row < across; row++)
    for (let column = 0; column < across; column++) {
      const at = project(fromMm, inMiddle(patch.leftMm, patch.widthMm, column, across), inMiddle(patch.topMm, patch.heightMm, row, across));
      const [px, py] = [Math.round(at.x), Math.round(at.y)];
      if (px < 0 || py < 0 || px >= picture.widthPx || py >= picture.heightPx) return null;
      const index = py * picture.widthPx + px;
      if (seen.has(index)) continue;
      seen.add(index);
      const colour = xyzAt(picture, px, py);
      [x, y, z] = [x + colour[0], y + colour[1], z + colour[2]];
      const lightness = lightnessOf(luminanceAt(picture, px, py));
      [sum, squares] = [sum + lightness, squares + lightness * lightness];
      if (isClipped(picture, index)) clipped++;
    }
  const pixels = seen.size;
  if (pixels < FEWEST_PIXELS) return null;
  return {
    id: patch.id,
    colour: labOf(x / pixels, y / pixels, z / pixels),
    noise: Math.sqrt(Math.max(0, squares / pixels - (sum / pixels) ** 2) * (pixels / (pixels - 1))),
    pixels,
    clipped: clipped / pixels,
  };
}

const inMiddle = (from: number, length: number, step: number, steps: number): number =>
  from + length * (0.5 - MIDDLE / 2 + (MIDDLE * (step + 0.5)) / steps);

function countAcross(fromMm: Homography, { leftMm, topMm, widthMm, heightMm }: Placed): number {
  const corner = project(fromMm, leftMm, topMm);
  const right = project(fromMm, leftMm + widthMm, topMm);
  const below = project(fromMm, leftMm, topMm + heightMm);
  const px = MIDDLE * Math.max(Math.hypot(right.x - corner.x, right.y - corner.y), Math.hypot(below.x - corner.x, below.y - corner.y));
  return Math.max(2, Math.min(MOST_ACROSS, Math.floor(px)));
}

function isClipped({ codes, maxCode }: Picture, index: number): boolean {
  for (let channel = 0; channel < 3; channel++) {
    const code = codes[index * 3 + channel];
    if (code === 0 || code === maxCode) return true;
  }
  return false;
}
