import { blurred, type GridPlane, resized } from "../planes/grid-plane.ts";

/** Frequencies 0 to 7 along each side; the mean says nothing of the picture. */
const FREQUENCIES = 8;
const SIDE_PX = 32;
const LEAST_LUMINANCE = 1e-3;
/** Light and glare are broader than this, and taken out with the local mean. */
const MEAN_SIGMA_PX = 3;
const SPREAD_SIGMA_PX = 4;
/** Contrast of less than this (ln Y) counts as noise and is not raised to the strength of the rest. */
const LEAST_SPREAD = 0.05;
/** Local standard deviations beyond which the rim of a reflection, or a lamp in the picture, counts no more. */
const MOST_SPREADS = 2;

/** What a picture looks like from afar: 63 numbers of unit length, the same for every capture of it, whatever its tone and light. */
export type Fingerprint = Float32Array;

/**
 * The fingerprint of a straightened picture (linear luminance): low frequencies of the discrete cosine transform (DCT-II)
 * of ln Y on a square of 32 × 32, less its local mean and over its local spread, so that neither uneven light nor a reflection
 * drowns the rest; the mean is left out, and each number drawn to its square root so that no single one outweighs the others.
 * Places outside what was captured are taken as the mean.
 */
export function fingerprintOf(picture: GridPlane): Fingerprint {
  const rest = evened(resized(picture, SIDE_PX, SIDE_PX));
  const print = Float32Array.from(PAIRS, ([u, v]) => {
    const amount = coefficient(rest, u, v);
    return Math.sign(amount) * Math.sqrt(Math.abs(amount));
  });
  const length = Math.hypot(...print);
  return length > 0 ? print.map((value) => value / length) : print;
}

/** Whether these are numbers of this kind, not of an older one that leaves nothing to compare. */
export const isFingerprint = (numbers: Float32Array): boolean => numbers.length === PAIRS.length;

/** ln Y less its local mean, in local standard deviations; 0 where nothing was captured. */
function evened({ width, height, data }: GridPlane): Float32Array {
  const logs = { width, height, data: data.map((value) => Math.log(Math.max(LEAST_LUMINANCE, value))) };
  const mean = blurred(logs, MEAN_SIGMA_PX).data;
  const rest = { width, height, data: logs.data.map((value, at) => value - (mean[at] as number)) };
  const squares = blurred({ width, height, data: rest.data.map((value) => value * value) }, SPREAD_SIGMA_PX).data;
  return rest.data.map((value, at) => {
    const spreads = value / Math.hypot(LEAST_SPREAD, Math.sqrt(squares[at] as number));
    return Number.isNaN(spreads) ? 0 : Math.max(-MOST_SPREADS, Math.min(MOST_SPREADS, spreads));
  });
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
}).filter(([u, v]) => u + v > 0);

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
