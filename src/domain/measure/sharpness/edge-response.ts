import { BINS_PER_PX } from "./edge-spread.ts";

/** What the step itself looks like. */
export type EdgeShape = {
  /** how far the bright side rises above its plateau and the dark side falls below its own; shares of the step */
  readonly overshoot: number;
  readonly undershoot: number;
  /** standard deviation of the averaged bright plateau, share of the step: how far an overshoot may be chance */
  readonly plateauSpread: number;
  /** largest change along one plateau, share of the step */
  readonly unevenness: number;
};

const FREQUENCY_STEP = 0.005;

/** The frequencies are so many-th parts of a cycle per bin: every angle that is needed is one of as many on the circle. */
const TURNS = Math.round(BINS_PER_PX / FREQUENCY_STEP);
const COSINES = Float64Array.from({ length: TURNS }, (_, turn) => Math.cos((2 * Math.PI * turn) / TURNS));
const SINES = Float64Array.from({ length: TURNS }, (_, turn) => Math.sin((2 * Math.PI * turn) / TURNS));

/**
 * Modulus of the windowed line spread's transform, 1 at frequency 0, corrected for the derivative filter; up to 1 cycle per
 * pixel along the row, or to where it first falls below `lowest`.
 */
export function response(values: Float64Array, cosine: number, lowest = 0): { frequencies: Float64Array; modulation: Float64Array } {
  const bins = values.length;
  const line = new Float64Array(bins);
  for (let bin = 1; bin < bins - 1; bin++) {
    const window = 0.54 + 0.46 * Math.cos((2 * Math.PI * (bin - (bins - 1) / 2)) / bins);
    line[bin] = (((values[bin + 1] as number) - (values[bin - 1] as number)) / 2) * window;
  }
  const total = line.reduce((sum, value) => sum + value, 0);
  const most = Math.round(1 / FREQUENCY_STEP) + 1;
  const modulation = new Float64Array(most);
  let count = 0;
  while (count < most) {
    const perBin = (2 * Math.PI * count) / TURNS;
    const correction = perBin === 0 ? 1 : Math.min(10, perBin / Math.sin(perBin));
    const reached = (transformAt(line, count) / Math.abs(total)) * correction;
    modulation[count++] = reached;
    if (reached < lowest) break;
  }
  return {
    frequencies: Float64Array.from({ length: count }, (_, k) => (k * FREQUENCY_STEP) / cosine),
    modulation: modulation.subarray(0, count),
  };
}

/** Modulus of a line's transform at `turns` parts of a cycle per bin. */
function transformAt(line: Float64Array, turns: number): number {
  let real = 0;
  let imaginary = 0;
  for (let bin = 0, turn = 0; bin < line.length; bin++) {
    real += (line[bin] as number) * (COSINES[turn] as number);
    imaginary += (line[bin] as number) * (SINES[turn] as number);
    turn += turns;
    if (turn >= TURNS) turn -= TURNS;
  }
  return Math.hypot(real, imaginary);
}

/** First frequency at which a curve falls below a level, between its points by a straight line. */
export function firstFall(frequencies: Float64Array, modulation: Float64Array, level: number): number | null {
  const after = modulation.findIndex((value) => value < level);
  if (after < 1) return null;
  const [f0, f1] = [frequencies[after - 1] as number, frequencies[after] as number];
  const [m0, m1] = [modulation[after - 1] as number, modulation[after] as number];
  return f0 + ((m0 - level) / (m0 - m1)) * (f1 - f0);
}

/** px along the row between 10 % and 90 % of the step. */
export function riseWidth(values: Float64Array): number {
  const above = values.findIndex((value, bin) => bin > 0.25 * values.length && value > 0.9);
  let below = above;
  while (below > 0 && (values[below] as number) > 0.1) below--;
  return Math.max(0, above - below) / BINS_PER_PX;
}

/**
 * The middle of a parabola through seven bins, which keeps the height of a peak 2 px wide within 2 % where the mean of three, as noisy, took 7 to 12 % from it.
 * Source: Savitzky and Golay, Analytical Chemistry 36 (1964) 1627, table I, quadratic over seven points (from memory; the weights of a least-squares parabola).
 */
const LOCAL_PARABOLA = [-2, 3, 6, 7, 6, 3, -2].map((weight) => weight / 21);
const LOCAL_REACH = 3;

export function shapeOf(values: Float64Array): EdgeShape {
  const half = values.length / 2;
  const plateau = zoneOf(half, 0.4, 0.99);
  const brightLevel = averageOf(values, plateau, 1);
  const darkLevel = averageOf(values, plateau, -1);
  const close = zoneOf(half, 0, 0.4);
  let highest = Number.NEGATIVE_INFINITY;
  let lowest = Number.POSITIVE_INFINITY;
  for (let k = close.from; k < close.to; k++) {
    highest = Math.max(highest, smoothAt(values, half + k));
    lowest = Math.min(lowest, smoothAt(values, half - 1 - k));
  }
  let squares = 0;
  for (let k = plateau.from; k < plateau.to; k++) squares += (smoothAt(values, half + k) - brightLevel) ** 2;
  const [near, far] = [zoneOf(half, 0.4, 0.7), zoneOf(half, 0.7, 0.99)];
  const changeAlong = (sign: 1 | -1) => Math.abs(averageOf(values, far, sign) - averageOf(values, near, sign));
  return {
    overshoot: highest - brightLevel,
    undershoot: darkLevel - lowest,
    plateauSpread: Math.sqrt(squares / (plateau.to - plateau.from)),
    unevenness: Math.max(changeAlong(1), changeAlong(-1)),
  };
}

/** Bins from the middle, the last one not included. */
type Zone = { readonly from: number; readonly to: number };

function zoneOf(half: number, from: number, to: number): Zone {
  const first = Math.floor(from * half) + 1;
  return { from: first, to: first + Math.floor((to - from) * half) - 1 };
}

/** Mean of a zone on the bright side (1) or the dark side (-1). */
function averageOf(values: Float64Array, { from, to }: Zone, sign: 1 | -1): number {
  const half = values.length / 2;
  let sum = 0;
  for (let k = from; k < to; k++) sum += values[sign === 1 ? half + k : half - 1 - k] as number;
  return sum / (to - from);
}

function smoothAt(values: Float64Array, bin: number): number {
  let sum = 0;
  for (let k = 0; k < LOCAL_PARABOLA.length; k++)
    sum += (LOCAL_PARABOLA[k] as number) * (values[Math.min(values.length - 1, Math.max(0, bin + k - LOCAL_REACH))] as number);
  return sum;
}
