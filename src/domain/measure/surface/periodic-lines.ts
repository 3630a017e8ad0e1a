import type { BorderProfiles } from "../border/border-profiles.ts";
import { solve } from "../numbers/least-squares.ts";
import { median } from "../numbers/robust.ts";

/** Lines at even distances, the same on both borders. */
export type PeriodicLines = {
  readonly periodPx: number;
  /** ln of light: half of what lies between the brightest and the darkest of a cycle */
  readonly strength: number;
  /** both profiles without them */
  readonly without: BorderProfiles;
};

const MOST_VALUES = 1024;
/** Slower changes are not told from uneven light, faster ones not from grain. */
const FEWEST_CYCLES = 4;
const SHORTEST_PERIOD_VALUES = 3;
/** Amplitude over the local median of its spectrum, on each border and on both together. */
const LEAST_PEAK_OF_ONE = 3;
const LEAST_PEAK = 5;
/** cos of the most that the phases of both borders may differ */
const LEAST_AGREEMENT = 0.85;
/** ln of light: fainter ones are not told from the rounding of 8 bits. */
const LEAST_STRENGTH = 0.003;
const NEIGHBOURS = 24;
/** Blocks of a JPEG file leave lines of their own at this distance and its fractions. */
const JPEG_BLOCK_PX = 8;

/**
 * The strongest sine that both profiles share: Hann-windowed spectra of what a second-order curve leaves, at half steps,
 * where the geometric mean of both amplitudes passes 5 times its local median and the phases agree. Null where none does.
 */
export function findPeriodicLines(profiles: BorderProfiles): PeriodicLines | null {
  const step = Math.max(1, Math.ceil(profiles.near.length / MOST_VALUES));
  const [near, far] = spectraOf(thinned(profiles.near, step), thinned(profiles.far, step));
  const count = near.real.length;
  const joint = new Float64Array(count);
  for (let k = 0; k < count; k++) joint[k] = Math.sqrt((near.amplitude[k] as number) * (far.amplitude[k] as number));
  let best: { k: number; peak: number } | null = null;
  for (let k = 0; k < count; k++) {
    const periodPx = (step * near.values) / cyclesAt(k);
    if (isBlockPeriod(periodPx, step * near.values)) continue;
    const amplitude = joint[k] as number;
    if (amplitude < (joint[k - 1] ?? 0) || amplitude < (joint[k + 1] ?? 0)) continue;
    const cross = (near.real[k] as number) * (far.real[k] as number) + (near.imaginary[k] as number) * (far.imaginary[k] as number);
    if (cross < LEAST_AGREEMENT * amplitude ** 2) continue;
    const peak = overLocal(joint, k);
    if (peak < LEAST_PEAK || Math.min(overLocal(near.amplitude, k), overLocal(far.amplitude, k)) < LEAST_PEAK_OF_ONE) continue;
    if (!best || amplitude > (joint[best.k] as number)) best = { k, peak };
  }
  if (!best) return null;
  const periodPx = (step * near.values) / fineCycles(joint, best.k);
  const lines = fitted(profiles, periodPx);
  return lines.strength < LEAST_STRENGTH ? null : lines;
}

/** Cycles of the whole length at a place of the spectrum. */
const cyclesAt = (k: number) => FEWEST_CYCLES + k / 2;

type Spectrum = {
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
  readonly amplitude: Float64Array;
  readonly values: number;
};

function thinned(values: Float64Array, step: number): Float64Array {
  const thin = new Float64Array(Math.floor(values.length / step));
  for (let index = 0; index < thin.length; index++) {
    let sum = 0;
    for (let k = 0; k < step; k++) sum += values[index * step + k] as number;
    thin[index] = sum / step;
  }
  return thin;
}

/**
 * Spectra of both borders, with phases from the middle of the length. Values as far from the middle on both sides have the same cosine
 * and opposite sines, so that their sum and their difference are enough; both borders share every cosine and sine.
 */
function spectraOf(nearValues: Float64Array, farValues: Float64Array): [Spectrum, Spectrum] {
  const n = nearValues.length;
  const count = Math.max(1, Math.floor(2 * (n / SHORTEST_PERIOD_VALUES - FEWEST_CYCLES)));
  const near = { ...halvesOf(nearValues), ...emptySpectrum(count, n) };
  const far = { ...halvesOf(farValues), ...emptySpectrum(count, n) };
  // at half steps every angle is a whole number of 4 n-ths of a turn
  const cosines = new Float64Array(4 * n);
  const sines = new Float64Array(4 * n);
  for (let at = 0; at < 4 * n; at++) {
    cosines[at] = Math.cos((Math.PI * at) / (2 * n));
    sines[at] = Math.sin((Math.PI * at) / (2 * n));
  }
  for (let k = 0; k < count; k++) {
    const turn = 2 * cyclesAt(k);
    let at = (turn * (n - 1)) % (4 * n);
    let nearReal = 0;
    let nearImaginary = 0;
    let farReal = 0;
    let farImaginary = 0;
    for (let index = 0; index < near.sums.length; index++) {
      const cosine = cosines[at] as number;
      const sine = sines[at] as number;
      nearReal += cosine * (near.sums[index] as number);
      nearImaginary += sine * (near.differences[index] as number);
      farReal += cosine * (far.sums[index] as number);
      farImaginary += sine * (far.differences[index] as number);
      at -= 2 * turn;
      if (at < 0) at += 4 * n;
    }
    // a sine of amplitude 1 gives n / 2 here, since the window's mean is 1
    near.real[k] = (2 * nearReal) / n;
    near.imaginary[k] = (2 * nearImaginary) / n;
    near.amplitude[k] = (2 * Math.hypot(nearReal, nearImaginary)) / n;
    far.real[k] = (2 * farReal) / n;
    far.imaginary[k] = (2 * farImaginary) / n;
    far.amplitude[k] = (2 * Math.hypot(farReal, farImaginary)) / n;
  }
  return [near, far];
}

const emptySpectrum = (count: number, values: number): Spectrum => ({
  real: new Float64Array(count),
  imaginary: new Float64Array(count),
  amplitude: new Float64Array(count),
  values,
});

/** Windowed values without their curve: sums and differences of those as far from the middle, outermost first. */
function halvesOf(values: Float64Array): { sums: Float64Array; differences: Float64Array } {
  const windowed = withoutCurve(values);
  const n = windowed.length;
  for (let index = 0; index < n; index++) windowed[index] = (windowed[index] as number) * (1 - Math.cos((2 * Math.PI * (index + 0.5)) / n));
  const sums = new Float64Array(Math.ceil(n / 2));
  const differences = new Float64Array(sums.length);
  for (let index = 0; index < sums.length; index++) {
    const before = windowed[index] as number;
    const after = index === n - 1 - index ? 0 : (windowed[n - 1 - index] as number);
    sums[index] = after + before;
    differences[index] = after - before;
  }
  return { sums, differences };
}

/** Least squares of 1, u, u² taken away. */
function withoutCurve(values: Float64Array): Float64Array {
  const last = values.length - 1;
  const sums = [0, 0, 0, 0, 0];
  const rights = [0, 0, 0];
  for (let index = 0; index <= last; index++) {
    let term = 1;
    for (let power = 0; power < 5; power++, term *= placeOf(index, last)) {
      sums[power] = (sums[power] as number) + term;
      if (power < 3) rights[power] = (rights[power] as number) + (values[index] as number) * term;
    }
  }
  const [s0, s1, s2, s3, s4] = sums as [number, number, number, number, number];
  const [a = 0, b = 0, c = 0] = solve([s0, s1, s2, s1, s2, s3, s2, s3, s4], rights) ?? [];
  const rest = new Float64Array(values.length);
  for (let index = 0; index <= last; index++) {
    const at = placeOf(index, last);
    rest[index] = (values[index] as number) - a - b * at - c * at ** 2;
  }
  return rest;
}

/** From -1 to 1 over the whole length. */
const placeOf = (index: number, last: number) => (2 * index) / last - 1;

function localMedian(values: Float64Array, k: number): number {
  const from = Math.max(0, k - NEIGHBOURS);
  return Math.max(1e-9, median(values.subarray(from, Math.min(values.length, from + 2 * NEIGHBOURS + 1))));
}

const overLocal = (amplitudes: Float64Array, k: number) => (amplitudes[k] as number) / localMedian(amplitudes, k);

/** Within one step of the spectrum of a whole number of cycles per block. */
function isBlockPeriod(periodPx: number, lengthPx: number): boolean {
  const perBlock = JPEG_BLOCK_PX / periodPx;
  return Math.round(perBlock) >= 1 && Math.abs(perBlock - Math.round(perBlock)) < (1.5 * JPEG_BLOCK_PX) / lengthPx;
}

/** A parabola through the peak and its neighbours. */
function fineCycles(joint: Float64Array, k: number): number {
  const [before, at, after] = [joint[k - 1] ?? 0, joint[k] as number, joint[k + 1] ?? 0];
  const shift = (before - after) / (2 * (before - 2 * at + after) || 1);
  return FEWEST_CYCLES + (k + Math.max(-0.5, Math.min(0.5, shift))) / 2;
}

/** Sine and cosine of this period and of half of it, by least squares on both borders together. */
function fitted(profiles: BorderProfiles, periodPx: number): PeriodicLines {
  const rests = [withoutCurve(profiles.near), withoutCurve(profiles.far)];
  const turns = [1, 2].map((harmonic) => (2 * Math.PI * harmonic) / periodPx);
  const terms = turns.map((turn) => {
    let c = 0;
    let s = 0;
    for (const rest of rests) {
      rest.forEach((value, x) => {
        c += (value * Math.cos(turn * x)) / rest.length;
        s += (value * Math.sin(turn * x)) / rest.length;
      });
    }
    return { turn, c, s };
  });
  const wave = (x: number) => terms.reduce((sum, { turn, c, s }) => sum + c * Math.cos(turn * x) + s * Math.sin(turn * x), 0);
  const cycle = Float64Array.from({ length: 64 }, (_, index) => wave((index * periodPx) / 64));
  const less = (values: Float64Array) => values.map((value, x) => value - wave(x));
  return {
    periodPx,
    strength: (Math.max(...cycle) - Math.min(...cycle)) / 2,
    without: { ...profiles, near: less(profiles.near), far: less(profiles.far) },
  };
}
