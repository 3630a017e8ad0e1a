import { hannWindow, TileTransform } from "../numbers/fourier.ts";
import type { GridPlane } from "../planes/grid-plane.ts";

/** How far the second of two tiles shows the same further right and down, px, and how sharply that shows. */
export type TileShift = { readonly x: number; readonly y: number; readonly sharpness: number };

export const TILE_PX = 128;
/** Frequencies that count, cycles per px: above what light and tone change, below where noise rules. */
const HIGHEST = 0.18;
const LOWEST = 2.5 / TILE_PX;
/** Darkest light: below it logarithms are all noise. */
const DARKEST = 2e-3;

/** By how much each frequency counts, row by row as spectra have them. */
const WEIGHTS = Float64Array.from({ length: TILE_PX * TILE_PX }, (_, place) => {
  const signed = (at: number) => (at < TILE_PX / 2 ? at : at - TILE_PX) / TILE_PX;
  const f = Math.hypot(signed(place % TILE_PX), signed(Math.floor(place / TILE_PX)));
  return f < LOWEST ? 0 : Math.exp(-((f / HIGHEST) ** 2));
});
const transform = new TileTransform(TILE_PX);
const window = hannWindow(TILE_PX);

/**
 * Shift between two tiles of luminance by phase correlation of their logarithms, to a fraction of a pixel by a parabola
 * through the peak. Tone and light drop out, since every frequency counts by its phase alone. Sharpness is the peak over the spread of the
 * rest. Null where a tile is not wholly seen.
 * Source: C. D. Kuglin, D. C. Hines, "The Phase Correlation Image Alignment Method", 1975.
 */
export function tileShift(one: GridPlane, other: GridPlane): TileShift | null {
  const first = prepared(one);
  const second = prepared(other);
  if (!first || !second) return null;
  const [a, b] = transform.pair(first, second);
  const n = TILE_PX;
  for (let place = 0, at = 0; place < n * n; place++, at += 2) {
    const ar = a[at] as number;
    const ai = a[at + 1] as number;
    const br = b[at] as number;
    const bi = b[at + 1] as number;
    const re = ar * br + ai * bi;
    const im = ar * bi - ai * br;
    const weight = (WEIGHTS[place] as number) / Math.max(1e-20, Math.sqrt(re * re + im * im));
    a[at] = re * weight;
    a[at + 1] = im * weight;
  }
  transform.inverse(a);
  return peakOf(a);
}

function prepared({ data }: GridPlane): Float32Array | null {
  let sum = 0;
  const logs = new Float32Array(data.length);
  for (let at = 0; at < data.length; at++) {
    const value = Math.log(Math.max(DARKEST, data[at] as number));
    logs[at] = value;
    sum += value;
  }
  if (Number.isNaN(sum)) return null;
  const mean = sum / data.length;
  return logs.map((value, at) => (value - mean) * (window[at] as number));
}

function peakOf(correlation: Float64Array): TileShift {
  const n = TILE_PX;
  const valueAt = (x: number, y: number) => correlation[2 * (((y + n) % n) * n + ((x + n) % n))] as number;
  let best = 0;
  let value = Number.NEGATIVE_INFINITY;
  let squares = 0;
  for (let place = 0; place < n * n; place++) {
    const here = correlation[2 * place] as number;
    squares += here * here;
    if (here > value) {
      value = here;
      best = place;
    }
  }
  const [x, y] = [best % n, Math.floor(best / n)];
  // the peak is nearly Gaussian, so the parabola goes through logarithms
  const log = (height: number) => Math.log(Math.max(1e-3 * value, height));
  const fraction = (before: number, after: number) => (log(before) - log(after)) / (2 * (log(before) - 2 * log(value) + log(after)) || 1);
  const signed = (at: number) => (at < n / 2 ? at : at - n);
  return {
    x: signed(x) + fraction(valueAt(x - 1, y), valueAt(x + 1, y)),
    y: signed(y) + fraction(valueAt(x, y - 1), valueAt(x, y + 1)),
    sharpness: value / Math.sqrt(squares / (n * n)),
  };
}
