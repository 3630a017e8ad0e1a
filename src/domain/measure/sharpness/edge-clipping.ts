import type { Side } from "../lines.ts";
import type { Picture } from "../picture.ts";
import { luminanceWeights, type StripPlace, type Weights } from "./side-strip.ts";

/**
 * Weights of R, G, B that read an edge only from channels whose bright side is not clipped to white. Where a channel ends
 * at white before the edge has risen whole, the rise that is left is too steep, and its response too fine. They sum up
 * to 1. Null where what is left is less than a fifth of the light.
 *
 * Source: ISO 12233:2014 asks for an edge that is not clipped; the shares are own.
 */
export function unclippedWeights(picture: Picture, side: Side, strip: StripPlace): Weights | null {
  const all = luminanceWeights(picture);
  const kept = whiteShares(picture, side, strip).map((share, channel) => (share > MOST_WHITE ? 0 : (all[channel] as number)));
  const sum = kept.reduce((total, weight) => total + weight, 0);
  if (sum < LEAST_LEFT) return null;
  return kept.map((weight) => weight / sum) as unknown as Weights;
}

/** Linear light from which a channel cannot be told from one that is cut off at white. */
const WHITE = 0.97;
const MOST_WHITE = 0.1;
const LEAST_LEFT = 0.2;
/** Every third row tells as much as all of them. */
const ROW_STEP = 3;

/** For R, G, B: share of white pixels in the outer third of the strip, on the side that has more. */
function whiteShares(
  { codes, linearOf, widthPx: frameWidth }: Picture,
  side: Side,
  { first, rows, widthPx, startPx }: StripPlace,
): number[] {
  const upright = side === "left" || side === "right";
  const [along, down] = upright ? [3, 3 * frameWidth] : [3 * frameWidth, 3];
  const third = Math.floor(widthPx / 3);
  const before = new Float64Array(3);
  const after = new Float64Array(3);
  let count = 0;
  for (let row = 0; row < rows; row += ROW_STEP) {
    const start = (first + row) * down + (startPx[row] as number) * along;
    const end = start + (widthPx - 1) * along;
    for (let k = 0; k < third; k++) {
      for (let channel = 0; channel < 3; channel++) {
        const table = linearOf[channel] as Float32Array;
        if ((table[codes[start + k * along + channel] as number] as number) >= WHITE) before[channel] = (before[channel] as number) + 1;
        if ((table[codes[end - k * along + channel] as number] as number) >= WHITE) after[channel] = (after[channel] as number) + 1;
      }
    }
    count += third;
  }
  return [0, 1, 2].map((channel) => (count === 0 ? 0 : Math.max(before[channel] as number, after[channel] as number) / count));
}
