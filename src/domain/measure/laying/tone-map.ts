import { median } from "../numbers/robust.ts";

const BINS = 32;
/** Points that tell how the map goes on beyond an end, and how steeply it may. */
const NEAR_END = 4;
const MOST_POWER = 2;

/**
 * How the tones of one plane turn into those of another: for each of 32 equally filled bins of `from` the median of
 * `to` at the same places, made to rise throughout. Unlike matched histograms it is not bent by glare in a part of
 * the picture. Both hold the same places in the same order, at least 32 of them, without NaN.
 */
export const toneMap = (from: Float32Array, to: Float32Array): ((value: number) => number) => toneMapFrom(from)(to);

/** The same for several planes that one is mapped onto: sorting its tones, which takes longest, is done once. */
export function toneMapFrom(from: Float32Array): (to: Float32Array) => (value: number) => number {
  const order = new Uint32Array(from.length);
  for (let at = 0; at < order.length; at++) order[at] = at;
  order.sort((a, b) => (from[a] as number) - (from[b] as number));
  const bins = Array.from({ length: BINS }, (_, bin) =>
    order.subarray(Math.floor((bin * order.length) / BINS), Math.floor(((bin + 1) * order.length) / BINS)),
  );
  const middles = (values: Float32Array) => bins.map((places) => median(valuesAt(values, places)));
  const inputs = middles(from);
  return (to) => {
    const rising = risen(middles(to));
    return (value) => interpolated(inputs, rising, value);
  };
}

function valuesAt(values: Float32Array, places: Uint32Array): Float32Array {
  const found = new Float32Array(places.length);
  for (let k = 0; k < found.length; k++) found[k] = values[places[k] as number] as number;
  return found;
}

/** Nearest values that never fall: neighbours that do are replaced by their mean (pool adjacent violators). */
function risen(values: readonly number[]): number[] {
  const pools: { sum: number; count: number }[] = [];
  for (const value of values) {
    let pool = { sum: value, count: 1 };
    for (let last = pools.at(-1); last && last.sum / last.count > pool.sum / pool.count; last = pools.at(-1)) {
      pools.pop();
      pool = { sum: pool.sum + last.sum, count: pool.count + last.count };
    }
    pools.push(pool);
  }
  return pools.flatMap(({ sum, count }) => new Array<number>(count).fill(sum / count));
}

/** Between the points by straight lines; beyond them by the power that the points near that end follow, as tone curves do. */
function interpolated(inputs: readonly number[], outputs: readonly number[], value: number): number {
  const last = inputs.length - 1;
  if (value <= (inputs[0] as number)) return extended(inputs, outputs, 0, NEAR_END, value);
  if (value >= (inputs[last] as number)) return extended(inputs, outputs, last, last - NEAR_END, value);
  let [below, above] = [0, last];
  while (above - below > 1) {
    const middle = (below + above) >> 1;
    if ((inputs[middle] as number) <= value) below = middle;
    else above = middle;
  }
  const run = (inputs[above] as number) - (inputs[below] as number);
  const share = run > 0 ? (value - (inputs[below] as number)) / run : 0;
  return (outputs[below] as number) * (1 - share) + (outputs[above] as number) * share;
}

const positive = (values: readonly number[], index: number) => Math.max(1e-6, values[index] as number);

function extended(inputs: readonly number[], outputs: readonly number[], end: number, inner: number, value: number): number {
  const run = Math.log(positive(inputs, end) / positive(inputs, inner));
  const rise = Math.log(positive(outputs, end) / positive(outputs, inner));
  const power = Math.abs(run) < 1e-3 ? 1 : Math.min(MOST_POWER, Math.max(1 / MOST_POWER, rise / run));
  return positive(outputs, end) * (Math.max(0, value) / positive(inputs, end)) ** power;
}
