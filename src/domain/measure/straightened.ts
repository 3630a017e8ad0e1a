import { type Homography, project } from "./homography.ts";
import type { ReducedCopy } from "./reduced-copy.ts";
import { median, robustSpread } from "./robust.ts";

/** Which cells of a square of them, row by row, are not of the colour that the plain strip has. */
export type Unlike = Uint8Array;

/** A strip whose own cells differ more than this from their middle colour (L*a*b*) is not plain. */
const LEAST_PLAIN = 6;

/**
 * Lays `count` × `count` cells over the copy by `toCopy` (cells' units 0..1 to px) and marks those unlike the strip for which
 * `isStrip` holds. Null where the strip is not plain, or lies outside the copy.
 */
export function unlikeStrip(
  copy: ReducedCopy,
  toCopy: Homography,
  count: number,
  isStrip: (u: number, v: number) => boolean,
): Unlike | null {
  const lab = [copy.lightness, copy.a, copy.b].map((plane) => straightened(copy, toCopy, count, plane));
  const strip: number[] = [];
  for (let cell = 0; cell < count * count; cell++) {
    if (isStrip(((cell % count) + 0.5) / count, (Math.floor(cell / count) + 0.5) / count) && !Number.isNaN(lab[0]?.[cell]))
      strip.push(cell);
  }
  if (strip.length < count) return null;
  const colour = lab.map((channel) => median(strip.map((cell) => channel[cell] as number)));
  const distances = Float32Array.from({ length: count * count }, (_, cell) =>
    Math.hypot(...lab.map((channel, k) => (channel[cell] as number) - (colour[k] as number))),
  );
  const ofStrip = strip.map((cell) => distances[cell] as number);
  const middle = median(ofStrip);
  if (middle > LEAST_PLAIN) return null;
  const limit = Math.max(2, middle + 3.5 * robustSpread(ofStrip, middle));
  // Beyond the frame nothing is known, and nothing is like the strip.
  return Uint8Array.from(distances, (distance) => (distance <= limit ? 0 : 1));
}

/** Nearest pixels of the copy; NaN beyond its frame. */
function straightened(copy: ReducedCopy, toCopy: Homography, count: number, plane: Float32Array): Float32Array {
  return Float32Array.from({ length: count * count }, (_, cell) => {
    const at = project(toCopy, ((cell % count) + 0.5) / count, (Math.floor(cell / count) + 0.5) / count);
    const x = Math.round(at.x);
    const y = Math.round(at.y);
    return x >= 0 && y >= 0 && x < copy.widthPx && y < copy.heightPx ? (plane[y * copy.widthPx + x] as number) : Number.NaN;
  });
}
