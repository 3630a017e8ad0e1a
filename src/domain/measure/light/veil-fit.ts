import { solve } from "../numbers/least-squares.ts";
import type { GridPlane } from "../planes/grid-plane.ts";

/** Light of one plane at places that all planes share, and what is asked of it for every pair. */
export type Samples = {
  readonly light: Float64Array;
  /** second-order terms of each place, six after six */
  readonly terms: Float64Array;
  /** places from the darkest to the brightest, in equally filled bins */
  readonly bins: readonly Uint32Array[];
  readonly white: number;
  /** below which half a percent of the places lie */
  readonly darkest: number;
  /** whether its dark places are much darker than its bright ones */
  readonly hasDarkTones: boolean;
};

const WHITE_SHARE = 0.01;
const DARKEST_SHARE = 0.005;
/** The darkest tones must be this much darker than the brightest. */
const MOST_DARK_SHARE = 0.3;
export const BINS = 32;
/** Tone curves of two devices for one print. */
export const POWERS = Array.from({ length: 21 }, (_, k) => 0.6 + 0.05 * k);
/** Added to all tones, so that the darkest do not outweigh all others. */
const FLOOR_SHARE = 0.02;
/** A second-order surface of smooth light. */
const TERMS = 6;
/** Tukey's constant: outliers beyond so many standard deviations count for nothing. */
export const TUKEY = 4.685;

export function samplesOf({ width, height, data }: GridPlane, places: Int32Array): Samples {
  const light = Float64Array.from(places, (at) => Math.max(0, data[at] as number));
  const terms = new Float64Array(places.length * TERMS);
  places.forEach((at, index) => {
    const u = (2 * (at % width)) / (width - 1) - 1;
    const v = (2 * Math.floor(at / width)) / (height - 1) - 1;
    terms.set([1, u, v, u * u, u * v, v * v], index * TERMS);
  });
  const order = Uint32Array.from(light.keys()).sort((a, b) => (light[a] as number) - (light[b] as number));
  const at = (share: number) => light[order[Math.floor(share * (order.length - 1))] as number] as number;
  return {
    light,
    terms,
    bins: Array.from({ length: BINS }, (_, bin) =>
      order.subarray(Math.floor((bin * order.length) / BINS), Math.floor(((bin + 1) * order.length) / BINS)),
    ),
    white: at(1 - WHITE_SHARE),
    darkest: at(DARKEST_SHARE),
    hasDarkTones: at(1 / BINS) < MOST_DARK_SHARE * at(1 - 1 / BINS),
  };
}

/** By what an error of the light is multiplied, so that relative errors count alike. */
export const scaleOf = ({ light, white }: Samples): Float64Array => light.map((value) => 1 / (value + FLOOR_SHARE * white));

export type VeilFit = {
  readonly power: number;
  /** light that one plane has more everywhere, linear */
  readonly offset: number;
  /** coefficients of L over u and v: of 1, u, v, u², uv, v² */
  readonly surface: readonly number[];
  /** what it leaves, as shares of the light */
  readonly residuals: Float64Array;
};

/**
 * Fits Y_one = L · Y_other^power + offset, L a second-order surface of place: linear under one power, so that one step of weighted least
 * squares does it. Null where the places do not fix them.
 */
export function fitVeil(power: number, one: Samples, other: Samples, weights: Float64Array, scale: Float64Array): VeilFit | null {
  const curved = other.light.map((value) => value ** power);
  const size = TERMS + 1;
  const matrix = new Array<number>(size * size).fill(0);
  const right = new Array<number>(size).fill(0);
  const row = new Float64Array(size);
  row[TERMS] = 1;
  for (let index = 0; index < weights.length; index++) {
    const weight = weights[index] as number;
    if (weight === 0) continue;
    for (let k = 0; k < TERMS; k++) row[k] = (one.terms[index * TERMS + k] as number) * (curved[index] as number);
    for (let i = 0; i < size; i++) {
      const part = weight * (row[i] as number);
      right[i] = (right[i] as number) + part * (one.light[index] as number);
      for (let j = i; j < size; j++) matrix[i * size + j] = (matrix[i * size + j] as number) + part * (row[j] as number);
    }
  }
  for (let i = 0; i < size; i++) for (let j = 0; j < i; j++) matrix[i * size + j] = matrix[j * size + i] as number;
  const found = solve(matrix, right);
  if (!found) return null;
  const offset = found[TERMS] as number;
  const residuals = one.light.map((value, index) => {
    let light = 0;
    for (let k = 0; k < TERMS; k++) light += (found[k] as number) * (one.terms[index * TERMS + k] as number);
    return (value - offset - light * (curved[index] as number)) * (scale[index] as number);
  });
  return { power, offset, surface: found.slice(0, TERMS), residuals };
}
