import type { BorderProfiles } from "../border/border-profiles.ts";
import { runningMedian } from "../numbers/running-median.ts";

/** A line that runs through both borders along the frame. */
export type Streak = {
  /** its middle, columns (rows) of the frame */
  readonly atPx: number;
  /** full width at half its strength, of the Gaussian that fits it best */
  readonly widthPx: number;
  /** ln of its light over that beside it, at its middle; negative where it is darker */
  readonly strength: number;
  readonly strengthSpread: number;
};

/** Windows of the running median: the short one follows the light closely, the long one leaves wide streaks standing. */
const SHORT_REACH_PX = 20;
const LONG_REACH_PX = 80;
/** Streaks wider than this many px need the long window. */
const SHORT_WIDEST_PX = 9;
const WIDTH_STEP = 1.6;
const LEAST_Z = 6;
/** Each border by itself must show the streak by so much. */
const LEAST_Z_OF_ONE = 3;
/** And the one not more than so many times as strongly as the other, whatever is unsure. */
const MOST_RATIO = 2.5;
/** ln of light: fainter lines are not told from the rounding of 8 bits. */
const LEAST_STRENGTH = 0.005;
const LEAST_SPREAD = 1e-5;
/** A spread of so many values is known to a few per cent. */
const MOST_VALUES = 800;
const MOST_STREAKS = 40;
/** Round a streak its skirts and what sharpening made of them are left out. */
const LEAST_REACH_PX = 6;

/**
 * Streaks up to `widestPx` wide: both profiles less their running medians, averaged over boxes of growing width, each in
 * units of its own robust spread; where both agree in sign and strength and their weighted mean passes 6, a streak
 * stands. The strongest is taken first, and its place is left out when the next is looked for. `faintest`: ln of light that
 * one of a single px must have to be found.
 */
export function findStreaks({ firstPx, near, far }: BorderProfiles, widestPx: number): { streaks: Streak[]; faintest: number } {
  const scales = scalesOf(near, far, widestPx);
  const [first, last] = [scales[0], scales.at(-1)];
  if (!first || !last) return { streaks: [], faintest: Number.POSITIVE_INFINITY };
  const taken = new Uint8Array(near.length);
  const found: Streak[] = [];
  while (found.length < MOST_STREAKS) {
    const peak = strongestPeak(scales, taken);
    if (!peak) break;
    const { scale, at } = peak;
    // The short window eats into a wide streak, the long one lets uneven light through: the width decides.
    const wide = fitGaussian(last, scale.boxPx, at, widestPx);
    const fitted = wide.widthPx > SHORT_WIDEST_PX ? wide : fitGaussian(first, scale.boxPx, at, widestPx);
    const reach = Math.max(1.5 * scale.boxPx, 3 * fitted.widthPx, LEAST_REACH_PX);
    taken.fill(1, Math.max(0, Math.floor(fitted.at - reach)), Math.ceil(fitted.at + reach) + 1);
    taken.fill(1, at, at + 1);
    if (Math.abs(fitted.strength) < LEAST_STRENGTH || fitted.widthPx > widestPx) continue;
    found.push({ atPx: firstPx + fitted.at, ...fitted });
  }
  return { streaks: found.sort((a, b) => a.atPx - b.atPx), faintest: Math.max(LEAST_STRENGTH, LEAST_Z * first.restSpread) };
}

type Scale = {
  readonly boxPx: number;
  /** what is left of both, unsmoothed, by the weights of their unsmoothed spreads */
  readonly rest: Float64Array;
  readonly restSpread: number;
  /** see `peaksOf` */
  readonly peaks: Float64Array;
};
type Smoothed = { readonly values: Float64Array; readonly spread: number };

function scalesOf(near: Float64Array, far: Float64Array, widestPx: number): Scale[] {
  const longReach = Math.round(Math.max(LONG_REACH_PX, 1.5 * widestPx));
  const rests = [SHORT_REACH_PX, longReach].map((reach) => ({ near: without(near, reach), far: without(far, reach) }));
  const scales: Scale[] = [];
  for (let width = 1; width <= widestPx; width *= WIDTH_STEP) {
    const boxPx = 2 * Math.round((width - 1) / 2) + 1;
    if (scales.at(-1)?.boxPx === boxPx) continue;
    const rest = rests[boxPx <= SHORT_WIDEST_PX ? 0 : 1] as { near: Float64Array; far: Float64Array };
    const spreads = [spreadOf(rest.near), spreadOf(rest.far)] as const;
    scales.push({
      boxPx,
      rest: rest.near.map((value, index) => weighted(value, rest.far[index] as number, ...spreads)),
      restSpread: 1 / Math.hypot(1 / spreads[0], 1 / spreads[1]),
      peaks: peaksOf(smoothed(rest.near, boxPx), smoothed(rest.far, boxPx)),
    });
  }
  return scales;
}

function without(values: Float64Array, reach: number): Float64Array {
  const middle = runningMedian(values, reach);
  return values.map((value, index) => value - (middle[index] as number));
}

/**
 * The larger of the robust spread and of what the 95th percentile says: JPEG flattens most of a plain border, and the
 * median deviation with it.
 */
function spreadOf(values: Float64Array): number {
  const stride = Math.ceil(values.length / MOST_VALUES);
  const sizes = new Float64Array(Math.floor(values.length / stride));
  for (let index = 0; index < sizes.length; index++) sizes[index] = Math.abs(values[index * stride] as number);
  sizes.sort();
  const at = (share: number) => sizes[Math.floor(share * (sizes.length - 1))] as number;
  return Math.max(LEAST_SPREAD, 1.4826 * at(0.5), at(0.95) / 1.96);
}

/** Mean of both by the inverse squares of their spreads. */
const weighted = (near: number, far: number, nearSpread: number, farSpread: number) =>
  (near / nearSpread ** 2 + far / farSpread ** 2) / (1 / nearSpread ** 2 + 1 / farSpread ** 2);

function smoothed(values: Float64Array, boxPx: number): Smoothed {
  const half = (boxPx - 1) / 2;
  const sums = new Float64Array(values.length + 1);
  for (let index = 0; index < values.length; index++) sums[index + 1] = (sums[index] as number) + (values[index] as number);
  const result = new Float64Array(values.length);
  for (let index = half; index < values.length - half; index++)
    result[index] = ((sums[index + half + 1] as number) - (sums[index - half] as number)) / boxPx;
  return { values: result, spread: spreadOf(result.subarray(half, values.length - half)) };
}

function strongestPeak(scales: readonly Scale[], taken: Uint8Array): { scale: Scale; at: number } | null {
  let best: { scale: Scale; at: number } | null = null;
  let most = 0;
  for (const scale of scales) {
    const { peaks } = scale;
    const half = (scale.boxPx - 1) / 2;
    for (let at = half; at < taken.length - half; at++) {
      const z = peaks[at] as number;
      if (z <= most || taken[at] || taken[at - half] || taken[at + half]) continue;
      best = { scale, at };
      most = z;
    }
  }
  return best;
}

/** At each place the mean of both borders in units of its spread, where it and both of them stand out and agree; else nought. */
function peaksOf(near: Smoothed, far: Smoothed): Float64Array {
  const peaks = new Float64Array(near.values.length);
  const spread = Math.hypot(1 / near.spread, 1 / far.spread);
  const unsure = 2 * Math.hypot(near.spread, far.spread);
  for (let at = 0; at < peaks.length; at++) {
    const one = near.values[at] as number;
    const other = far.values[at] as number;
    const zNear = one / near.spread;
    const zFar = other / far.spread;
    if (zNear * zFar <= 0 || Math.min(Math.abs(zNear), Math.abs(zFar)) < LEAST_Z_OF_ONE) continue;
    const z = Math.abs(zNear / near.spread + zFar / far.spread) / spread;
    const more = Math.max(Math.abs(one), Math.abs(other));
    const less = Math.min(Math.abs(one), Math.abs(other));
    if (z >= LEAST_Z && more - unsure <= MOST_RATIO * less) peaks[at] = z;
  }
  return peaks;
}

/** The box that shows a strong streak best may be far narrower than the streak. */
const MOST_WIDTHS_OF_BOX = 10;

/** Least squares over widths and places near the peak. */
function fitGaussian({ rest, restSpread }: Scale, boxPx: number, peak: number, widestPx: number) {
  let best = { at: peak, widthPx: 1, strength: 0, strengthSpread: restSpread, gain: 0 };
  for (let sigma = 0.4; sigma * FULL_WIDTH <= 1.2 * widestPx; sigma *= 1.2) {
    if (sigma * FULL_WIDTH > MOST_WIDTHS_OF_BOX * boxPx) break;
    const reach = Math.ceil(3 * sigma);
    for (let shift = -boxPx / 2; shift <= boxPx / 2; shift += Math.max(0.25, sigma / 4)) {
      const at = peak + shift;
      let [product, squares] = [0, 0];
      for (let x = Math.max(0, Math.floor(at - reach)); x <= Math.min(rest.length - 1, Math.ceil(at + reach)); x++) {
        const shape = Math.exp(-((x - at) ** 2) / (2 * sigma * sigma));
        product += shape * (rest[x] as number);
        squares += shape * shape;
      }
      const gain = (product * product) / squares;
      if (gain <= best.gain) continue;
      best = { at, widthPx: sigma * FULL_WIDTH, strength: product / squares, strengthSpread: restSpread / Math.sqrt(squares), gain };
    }
  }
  const { gain: _, ...fitted } = best;
  return fitted;
}

/** Full width at half maximum of a Gaussian of standard deviation 1. */
const FULL_WIDTH = 2 * Math.sqrt(2 * Math.log(2));
