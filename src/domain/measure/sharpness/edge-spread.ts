import { median } from "../numbers/robust.ts";
import type { EdgePlaces, EdgeStrip } from "./edge-places.ts";

/** Quarter-pixel bins. */
export const BINS_PER_PX = 4;

export type Plateaus = {
  /** px to both sides of the edge that every row covers */
  readonly reach: number;
  /** levels left and right of the edge, smoothed along it */
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** how much each side changes between its near and its far half, smoothed likewise */
  readonly drift: Float64Array;
};

export function plateaus(strip: EdgeStrip, places: Float64Array): Plateaus | null {
  const { rows, widthPx, data, startPx } = strip;
  let reach = widthPx;
  for (let row = 0; row < rows; row++) {
    const from = (places[row] as number) - (startPx[row] as number);
    reach = Math.min(reach, from, widthPx - 1 - from);
  }
  reach = Math.floor(reach) | 0;
  if (reach < 8) return null;
  const left = new Float64Array(rows);
  const right = new Float64Array(rows);
  const leftDrift = new Float64Array(rows);
  const rightDrift = new Float64Array(rows);
  const middle = Math.round(0.7 * reach);
  const near = Math.round(0.4 * reach);
  for (let row = 0; row < rows; row++) {
    const edge = row * widthPx + (Math.round((places[row] as number) - (startPx[row] as number)) | 0);
    const leftFar = sumOf(data, edge - reach, edge - middle);
    const leftNear = sumOf(data, edge - middle, edge - near);
    const rightNear = sumOf(data, edge + near, edge + middle);
    const rightFar = sumOf(data, edge + middle, edge + reach);
    left[row] = (leftFar + leftNear) / (reach - near);
    right[row] = (rightNear + rightFar) / (reach - near);
    leftDrift[row] = leftFar / (reach - middle) - leftNear / (middle - near);
    rightDrift[row] = rightFar / (reach - middle) - rightNear / (middle - near);
  }
  const drift = smoothed(leftDrift);
  const ofRight = smoothed(rightDrift);
  for (let row = 0; row < rows; row++) drift[row] = Math.max(Math.abs(drift[row] as number), Math.abs(ofRight[row] as number));
  return { reach, left: smoothed(left), right: smoothed(right), drift };
}

function sumOf(data: Float32Array, from: number, to: number): number {
  let sum = 0;
  for (let at = from; at < to; at++) sum += data[at] as number;
  return sum;
}

/** Running mean over 17 rows. */
function smoothed(values: Float64Array): Float64Array {
  const sums = new Float64Array(values.length + 1);
  for (let row = 0; row < values.length; row++) sums[row + 1] = (sums[row] as number) + (values[row] as number);
  const means = new Float64Array(values.length);
  for (let row = 0; row < means.length; row++) {
    const from = Math.max(0, row - 8);
    const to = Math.min(means.length, row + 9);
    means[row] = ((sums[to] as number) - (sums[from] as number)) / (to - from);
  }
  return means;
}

/** Rows whose edge lies on the line, whose step is near that of most, and whose plateaus are plain. */
export function plainRows(
  { left, right, drift }: Plateaus,
  { agree }: EdgePlaces,
  { first, count }: { first: number; count: number },
): number[] {
  const steps = new Float64Array(count);
  for (let index = 0; index < count; index++) steps[index] = (right[first + index] as number) - (left[first + index] as number);
  const step = median(steps);
  const plain: number[] = [];
  for (let row = first; row < first + count; row++) {
    const share = (steps[row - first] as number) / step;
    if (agree[row] === 1 && share > 0.5 && share < 1.5 && (drift[row] as number) < 0.15 * Math.abs(step)) plain.push(row);
  }
  return plain;
}

export function levelsOf({ left, right }: Plateaus, rows: readonly number[]): { dark: number; bright: number } {
  let a = 0;
  let b = 0;
  for (const row of rows) {
    a += left[row] as number;
    b += right[row] as number;
  }
  return { dark: Math.min(a, b) / rows.length, bright: Math.max(a, b) / rows.length };
}

function total(values: Float64Array): number {
  let sum = 0;
  for (let index = 0; index < values.length; index++) sum += values[index] as number;
  return sum;
}

export type EdgeSpread = {
  /** 0 on the dark side, 1 on the bright side; bin i covers (i - n/2) / 4 to (i + 1 - n/2) / 4 px along the row */
  readonly values: Float64Array;
  readonly emptyShare: number;
  /** standard deviation of single pixels on the plateaus, share of the step */
  readonly noise: number;
};

export function project(strip: EdgeStrip, places: Float64Array, levels: Plateaus, rows: readonly number[]): EdgeSpread {
  const { widthPx, data, startPx } = strip;
  const bins = 2 * BINS_PER_PX * levels.reach;
  const sums = new Float64Array(bins);
  const squares = new Float64Array(bins);
  const counts = new Uint32Array(bins);
  const brightRight = total(levels.right) > total(levels.left);
  for (const row of rows) {
    const edge = (places[row] as number) - (startPx[row] as number);
    const dark = (brightRight ? levels.left[row] : levels.right[row]) as number;
    const perStep = 1 / Math.abs((levels.right[row] as number) - (levels.left[row] as number));
    // whole in the engine too, as an index must be
    const first = Math.max(0, Math.ceil(edge - levels.reach)) | 0;
    const last = Math.min(widthPx - 1, Math.floor(edge + levels.reach)) | 0;
    // From pixel to pixel the distance from the edge grows by 1, and so the bin by as many as there are to a pixel.
    const binStep = brightRight ? BINS_PER_PX : -BINS_PER_PX;
    let bin = (Math.floor(BINS_PER_PX * (brightRight ? first - edge : edge - first)) | 0) + (bins >> 1);
    for (let k = first, at = row * widthPx + first; k <= last; k++, at++, bin += binStep) {
      if (bin < 0 || bin >= bins) continue;
      const value = ((data[at] as number) - dark) * perStep;
      sums[bin] = (sums[bin] as number) + value;
      squares[bin] = (squares[bin] as number) + value * value;
      counts[bin] = (counts[bin] as number) + 1;
    }
  }
  return {
    values: filled(sums, counts),
    emptyShare: counts.filter((count) => count === 0).length / bins,
    noise: plateauNoise(sums, squares, counts),
  };
}

/** Bin means; an empty bin takes the value of its neighbour. */
function filled(sums: Float64Array, counts: Uint32Array): Float64Array {
  const values = new Float64Array(sums.length);
  for (let bin = 0; bin < values.length; bin++) values[bin] = (sums[bin] as number) / (counts[bin] as number);
  for (let bin = 1; bin < values.length; bin++) if (counts[bin] === 0) values[bin] = values[bin - 1] as number;
  for (let bin = values.length - 2; bin >= 0; bin--) if (Number.isNaN(values[bin])) values[bin] = values[bin + 1] as number;
  return values;
}

function plateauNoise(sums: Float64Array, squares: Float64Array, counts: Uint32Array): number {
  const bins = sums.length;
  let within = 0;
  let count = 0;
  for (let bin = 0; bin < bins; bin++) {
    const n = counts[bin] as number;
    if (n < 2 || Math.abs(bin - bins / 2) < 0.2 * bins) continue;
    within += (squares[bin] as number) - (sums[bin] as number) ** 2 / n;
    count += n - 1;
  }
  return count === 0 ? 0 : Math.sqrt(Math.max(0, within) / count);
}
