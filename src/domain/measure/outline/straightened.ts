import type { Homography } from "../homography.ts";
import { median, robustSpread } from "../numbers/robust.ts";
import type { ReducedCopy } from "./reduced-copy.ts";

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
  const places = placesOf(copy, toCopy, count);
  const planes = [copy.lightness, copy.a, copy.b] as const;
  const strip: number[] = [];
  for (let row = 0, cell = 0; row < count; row++) {
    for (let column = 0; column < count; column++, cell++) {
      if (places[cell] !== BEYOND && isStrip((column + 0.5) / count, (row + 0.5) / count)) strip.push(cell);
    }
  }
  if (strip.length < count) return null;
  const [l, a, b] = planes.map((plane) => median(strip.map((cell) => plane[places[cell] as number] as number))) as [number, number, number];
  const distances = new Float32Array(count * count).fill(Number.POSITIVE_INFINITY);
  for (let cell = 0; cell < distances.length; cell++) {
    const at = places[cell] as number;
    if (at === BEYOND) continue;
    const [dl, da, db] = [(planes[0][at] as number) - l, (planes[1][at] as number) - a, (planes[2][at] as number) - b];
    distances[cell] = Math.sqrt(dl * dl + da * da + db * db);
  }
  const ofStrip = strip.map((cell) => distances[cell] as number);
  const middle = median(ofStrip);
  if (middle > LEAST_PLAIN) return null;
  const limit = Math.max(2, middle + 3.5 * robustSpread(ofStrip, middle));
  // Beyond the frame nothing is known, and nothing is like the strip.
  const unlike = new Uint8Array(distances.length);
  for (let cell = 0; cell < unlike.length; cell++) unlike[cell] = (distances[cell] as number) <= limit ? 0 : 1;
  return unlike;
}

const BEYOND = -1;

/** Nearest pixel of the copy for each cell. */
function placesOf(copy: ReducedCopy, toCopy: Homography, count: number): Int32Array {
  const places = new Int32Array(count * count);
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = toCopy;
  for (let row = 0, cell = 0; row < count; row++) {
    const v = (row + 0.5) / count;
    for (let column = 0; column < count; column++, cell++) {
      const u = (column + 0.5) / count;
      const w = m6 * u + m7 * v + m8;
      const x = Math.round((m0 * u + m1 * v + m2) / w);
      const y = Math.round((m3 * u + m4 * v + m5) / w);
      places[cell] = x >= 0 && y >= 0 && x < copy.widthPx && y < copy.heightPx ? y * copy.widthPx + x : BEYOND;
    }
  }
  return places;
}
