import { hannWindow, TileTransform } from "../numbers/fourier.ts";
import type { Picture, Point } from "../picture.ts";
import type { Outline } from "../reading.ts";
import { pictureTiles, TILE } from "./picture-tiles.ts";

/** A tile of the picture (picture-tiles.ts) as the power of its spectrum, 64 × 64, row by row, frequency 0 first; 1e-9 is added. */
export type TilePower = { readonly middle: Point; readonly quarter: number; readonly power: Float64Array };

/** Several measures read the same tiles: they are made once for each outline and step, and let go with the picture. */
const known = new WeakMap<Picture, { readonly outline: Outline; readonly bySteps: Map<number, readonly TilePower[]> }>();

export const HANN = hannWindow(TILE);

/** Every `stepPx`-th pixel of each tile, under a Hann window. */
export function tilePowers(picture: Picture, outline: Outline, stepPx: number): readonly TilePower[] {
  const before = known.get(picture);
  const bySteps = before?.outline === outline ? before.bySteps : new Map<number, readonly TilePower[]>();
  if (before?.outline !== outline) known.set(picture, { outline, bySteps });
  const powers = bySteps.get(stepPx) ?? powersOf(picture, outline, stepPx);
  bySteps.set(stepPx, powers);
  return powers;
}

function powersOf(picture: Picture, outline: Outline, stepPx: number): TilePower[] {
  const transform = new TileTransform(TILE);
  const tiles = pictureTiles(picture, outline, stepPx, HANN);
  const found: TilePower[] = [];
  for (let index = 0; index < tiles.length; index += 2) {
    const pair = tiles.slice(index, index + 2);
    const [one, other = one] = pair as [(typeof pair)[number], (typeof pair)[number]?];
    const spectra = transform.pair(one.samples, other.samples);
    for (const [which, { middle, quarter }] of pair.entries())
      found.push({ middle, quarter, power: powerOf(spectra[which] as Float64Array) });
  }
  return found;
}

function powerOf(spectrum: Float64Array): Float64Array {
  const power = new Float64Array(spectrum.length / 2);
  for (let at = 0; at < power.length; at++) {
    const real = spectrum[2 * at] as number;
    const imaginary = spectrum[2 * at + 1] as number;
    power[at] = 1e-9 + real * real + imaginary * imaginary;
  }
  return power;
}
