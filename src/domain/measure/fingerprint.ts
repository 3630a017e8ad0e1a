import { type GridPlane, resized } from "./grid-plane.ts";

/** Frequencies 0 to 7 along each side; see `fingerprintOf` for what is left out. */
const FREQUENCIES = 8;
const SIDE_PX = 32;
/** Light that falls off to a side or the corners, and the mean, say nothing of the picture. */
const isOfLight = (u: number, v: number): boolean => u + v <= 1;
const LEAST_LUMINANCE = 1e-3;

/** What a picture looks like from afar: 61 numbers of unit length, the same for every capture of it, whatever its tone. */
export type Fingerprint = Float32Array;

/**
 * The fingerprint of a straightened picture (linear luminance): low frequencies of the discrete cosine transform (DCT-II)
 * of ln Y on a square of 32 × 32, the mean and the linear terms left out, each drawn to its square root so that no single
 * one outweighs the rest. Places outside what was captured are taken as the mean.
 */
export function fingerprintOf(picture: GridPlane): Fingerprint {
  const { data } = resized(picture, SIDE_PX, SIDE_PX);
  const logs = data.map((value) => Math.log(Math.max(LEAST_LUMINANCE, value)));
  const known = logs.filter((value) => !Number.isNaN(value));
  const mean = known.reduce((sum, value) => sum + value, 0) / Math.max(1, known.length);
  const rest = logs.map((value) => (Number.isNaN(value) ? 0 : value - mean));
  const print = Float32Array.from(PAIRS, ([u, v]) => {
    const amount = coefficient(rest, u, v);
    return Math.sign(amount) * Math.sqrt(Math.abs(amount));
  });
  const length = Math.hypot(...print);
  return length > 0 ? print.map((value) => value / length) : print;
}

/** The fingerprint of the same picture turned by quarters, clockwise as seen. */
export function turnedFingerprint(print: Fingerprint, quarters: number): Fingerprint {
  let turned = print;
  for (let quarter = 0; quarter < quarters % 4; quarter++) {
    const before = turned;
    turned = Float32Array.from(PAIRS, ([u, v]) => (u % 2 === 0 ? 1 : -1) * (before[INDEX_OF[u * FREQUENCIES + v] as number] as number));
  }
  return turned;
}

/** How alike two pictures look from afar, −1 to 1. */
export function likenessOf(one: Fingerprint, other: Fingerprint): number {
  let sum = 0;
  for (let index = 0; index < one.length; index++) sum += (one[index] as number) * (other[index] as number);
  return sum;
}

/** Frequency across and down of each number of a fingerprint. */
const PAIRS: readonly (readonly [number, number])[] = Array.from({ length: FREQUENCIES ** 2 }, (_, index) => {
  return [index % FREQUENCIES, Math.floor(index / FREQUENCIES)] as const;
}).filter(([u, v]) => !isOfLight(u, v));

/** Place in a fingerprint of the pair (u, v), by v × 8 + u. */
const INDEX_OF: readonly number[] = Array.from({ length: FREQUENCIES ** 2 }, (_, at) =>
  PAIRS.findIndex(([u, v]) => v * FREQUENCIES + u === at),
);

const COSINES = Array.from({ length: FREQUENCIES }, (_, frequency) =>
  Float64Array.from({ length: SIDE_PX }, (_each, x) => Math.cos((Math.PI * (2 * x + 1) * frequency) / (2 * SIDE_PX))),
);

function coefficient(values: Float32Array, u: number, v: number): number {
  const [across, down] = [COSINES[u] as Float64Array, COSINES[v] as Float64Array];
  let sum = 0;
  for (let y = 0; y < SIDE_PX; y++) {
    let row = 0;
    for (let x = 0; x < SIDE_PX; x++) row += (across[x] as number) * (values[y * SIDE_PX + x] as number);
    sum += (down[y] as number) * row;
  }
  return sum;
}
