import { endsOf, type Line, lengthOf, lineThrough, type Side } from "../lines.ts";
import { median, robustSpread } from "../numbers/robust.ts";
import type { Picture, Point, Quad } from "../picture.ts";
import { refineFaintLine } from "./outline-faint-refine.ts";
import { linearSampler } from "./samplers.ts";

/** A side of the sheet that shows against a ground of nearly its own colour. */
export type FaintSide = {
  readonly line: Line;
  /** how far it stands out of what chance would give, in standard deviations */
  readonly clarity: number;
};

/**
 * Clarity from which a line is the sheet's side: on drawn white grounds chance lines stayed below 6.5 and the sides of a
 * sheet one per cent darker than its ground stood above 14. On wood grain chance goes higher: for plain grounds only.
 */
export const CLEAR_FROM = 7.5;

/** Where to look, as shares of the picture's mean side: the thick border of an integral print is 0.31 of it. */
const NEAREST = 0.008;
/** The blur of the picture's own edge ends before this, px. */
const NEAREST_PX = 6;
const FARTHEST = 0.45;
/** Perspective makes a sheet's side and its picture's side differ by a few hundredths. */
const STEEPEST = 0.03;
const SHEARS = 31;
const COLUMNS = 160;
/** Samples along the side are averaged over runs so short that a shear does not show in one, and those over blocks. */
const RUNS = 80;
const BLOCKS = 8;
const MOST_ROWS = 600;
const FEWEST_ROWS = 12;
/** A scale below this is that of quantised, not of measured values. */
const LEAST_SPREAD = 5e-5;

/**
 * Looks outwards from one side of the picture for the sheet's own side: the line, a little sheared or not, along which
 * the mean colour jumps most, not farther than `roomPx`. Null when the frame, or what lies beside it, leaves no room to look.
 */
export function findFaintSide(picture: Picture, image: Quad, side: Side, roomPx = Number.POSITIVE_INFINITY): FaintSide | null {
  const [from, to] = endsOf(image, side);
  const length = lengthOf(image, side);
  const meanSide = (lengthOf(image, "top") + lengthOf(image, "right") + lengthOf(image, "bottom") + lengthOf(image, "left")) / 4;
  const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const outward = { x: along.y, y: -along.x };
  const nearPx = Math.max(NEAREST_PX, NEAREST * meanSide);
  const farPx = Math.min(FARTHEST * meanSide, roomPx);
  if (farPx < nearPx + FEWEST_ROWS) return null;
  const stepPx = Math.max(1, (farPx - nearPx) / MOST_ROWS);
  const rows = Math.floor((farPx - nearPx) / stepPx);
  const strip = readStrip(picture, from, along, outward, length, nearPx, stepPx, rows);
  const shears = Array.from({ length: SHEARS }, (_, index) => (STEEPEST * ((2 * index) / (SHEARS - 1) - 1) * length) / stepPx);
  // What changes by chance does so alike whatever the shear: it is read once.
  const chance = clearestRow(strip, 0, null);
  const first = chance && clearestOf(strip, shears, { ...chance, isNear: false });
  if (!first) return null;
  // Far from the line the scale of chance changes is itself disturbed by it, so the second look keeps the first's scale.
  let best = first;
  for (let look = 0; look < 3; look++) {
    const middle = best.shearRows;
    const finer = Array.from({ length: 2 * FINER + 1 }, (_, index) => middle + (index - FINER) * 0.5);
    best = clearestOf(strip, finer, { ...best, isNear: true }) ?? best;
  }
  const place = (s: number): Point => {
    const t = nearPx + best.row * stepPx + best.shearRows * stepPx * (s / length - 0.5);
    return { x: from.x + along.x * s + outward.x * t, y: from.y + along.y * s + outward.y * t };
  };
  const borderPx = nearPx + best.row * stepPx - (Math.abs(best.shearRows) * stepPx) / 2;
  const line = refineFaintLine(linearSampler(picture), place(0), place(length), borderPx)?.line ?? lineThrough(place(0), place(length));
  return { line, clarity: first.clarity };
}

/** Rows outwards, short runs along the side; per cell three channels in which neutral noise shows in the first alone. */
type Strip = { readonly rows: number; readonly channels: readonly [Float32Array, Float32Array, Float32Array] };

/** Square roots of linear light: steps of paper and of shadow then count alike. Ends before the first row that leaves the frame. */
function readStrip(
  picture: Picture,
  from: Point,
  along: Point,
  outward: Point,
  length: number,
  nearPx: number,
  stepPx: number,
  rows: number,
): Strip {
  const sample = linearSampler(picture);
  const perRun = COLUMNS / RUNS;
  const channels = [0, 1, 2].map(() => new Float32Array(Math.max(0, rows) * RUNS)) as [Float32Array, Float32Array, Float32Array];
  const pixel = new Float64Array(3);
  for (let row = 0; row < rows; row++) {
    const t = nearPx + row * stepPx;
    for (let column = 0; column < COLUMNS; column++) {
      const s = ((column + 0.5) / COLUMNS) * length;
      if (!sample(from.x + along.x * s + outward.x * t, from.y + along.y * s + outward.y * t, pixel)) return { rows: row, channels };
      const [r, g, b] = [Math.sqrt(pixel[0] as number), Math.sqrt(pixel[1] as number), Math.sqrt(pixel[2] as number)] as const;
      const at = row * RUNS + Math.floor(column / perRun);
      channels[0][at] = (channels[0][at] as number) + (r + g + b) / 3 / perRun;
      channels[1][at] = (channels[1][at] as number) + (r - b) / perRun;
      channels[2][at] = (channels[2][at] as number) + (g - (r + b) / 2) / perRun;
    }
  }
  return { rows, channels };
}

/** A shadow line is a row or two wide, a mere step of tone as wide as one likes: changes over both are looked at. */
const SPANS = [1, 5] as const;
const LONGEST = 5;
const FINER = 10;
const NEIGHBOURHOOD = 8;

type Clearest = {
  readonly clarity: number;
  readonly row: number;
  readonly shearRows: number;
  /** per span and channel, the middle and the scale of chance changes */
  readonly chance: readonly (readonly { readonly middle: number; readonly spread: number }[])[];
};

/** An earlier find, whose scale of chance is kept; the next is looked for near it, the spans taken together, or anywhere. */
type Earlier = Clearest & { readonly isNear: boolean };

/** The clearest line over several shears. */
function clearestOf(strip: Strip, shears: readonly number[], earlier: Earlier): Clearest | null {
  let best: Clearest | null = null;
  for (const shearRows of shears) {
    const found = clearestRow(strip, shearRows, earlier);
    if (found && (!best || found.clarity > best.clarity)) best = found;
  }
  return best;
}

/** The row at which the mean colour changes most, all three channels on the scale of their own chance changes. */
function clearestRow(strip: Strip, shearRows: number, earlier: Earlier | null): Clearest | null {
  const reach = Math.ceil(Math.abs(shearRows) / 2) + 1;
  const start = earlier?.isNear ? Math.max(reach, Math.round(earlier.row) - NEIGHBOURHOOD - LONGEST) : reach;
  const end = earlier?.isNear ? Math.min(strip.rows - reach, Math.round(earlier.row) + NEIGHBOURHOOD + LONGEST) : strip.rows - reach;
  const count = end - start;
  if (count < 3 * LONGEST) return null;
  const offsets = runOffsets(shearRows);
  const means = strip.channels.map((channel) => {
    const along = new Float64Array(count);
    for (let index = 0; index < count; index++) along[index] = meanAlong(channel, start + index, offsets);
    return along;
  });
  const changes = SPANS.map((span) => means.map((channel) => changesOver(channel, span)));
  const chance =
    earlier?.chance ??
    changes.map((channels) => channels.map((each) => ({ middle: median(each), spread: Math.max(LEAST_SPREAD, robustSpread(each)) })));
  const squares = SPANS.map((span, which) => {
    const sum = new Float64Array(count);
    changes[which]?.forEach((channel, k) => {
      const { middle = 0, spread = 1 } = chance[which]?.[k] ?? {};
      for (let index = 0; index < channel.length; index++) {
        const size = ((channel[index] as number) - middle) / spread;
        sum[index + span] = (sum[index + span] as number) + size * size;
      }
    });
    return sum;
  });
  const candidates = earlier?.isNear
    ? [squares.reduce((sum, each) => sum.map((value, index) => value + (each[index] as number)))]
    : squares;
  let best: Clearest | null = null;
  for (const each of candidates) {
    let peak = 1;
    for (let index = 1; index < count - 1; index++) if ((each[index] as number) > (each[peak] as number)) peak = index;
    const clarity = Math.sqrt(each[peak] as number);
    if (!best || clarity > best.clarity) best = { clarity, row: start + peak + summit(each, peak) - 0.5, shearRows, chance };
  }
  return best;
}

/** Where between its neighbours a peak has its summit, by a parabola. */
function summit(values: Float64Array, peak: number): number {
  const [before, at, after] = [values[peak - 1] ?? 0, values[peak] as number, values[peak + 1] ?? 0];
  const curve = before - 2 * at + after;
  return curve < 0 ? Math.max(-1, Math.min(1, (0.5 * (before - after)) / curve)) : 0;
}

/** Mean of the `span` rows from an index on, less that of the `span` rows before it; the first answer belongs to index `span`. */
function changesOver(means: Float64Array, span: number): Float64Array {
  const sums = new Float64Array(means.length + 1);
  means.forEach((mean, index) => {
    sums[index + 1] = (sums[index] as number) + mean;
  });
  const between = (from: number, to: number) => ((sums[to] as number) - (sums[from] as number)) / span;
  const changes = new Float64Array(means.length - 2 * span + 1);
  for (let index = 0; index < changes.length; index++)
    changes[index] = between(index + span, index + 2 * span) - between(index, index + span);
  return changes;
}

/** Where the runs of a sheared row lie in the strip, as seen from the start of its middle row. */
const runOffsets = (shearRows: number) =>
  Int32Array.from({ length: RUNS }, (_, run) => Math.round(shearRows * ((run + 0.5) / RUNS - 0.5)) * RUNS + run);

const RUNS_OF_BLOCK = RUNS / BLOCKS;

/** Mean of a sheared row: the median of eight block means, so that dust in one place does not count. */
function meanAlong(channel: Float32Array, row: number, offsets: Int32Array): number {
  const start = row * RUNS;
  for (let block = 0, run = 0; block < BLOCKS; block++) {
    let sum = 0;
    for (let last = run + RUNS_OF_BLOCK; run < last; run++) sum += channel[start + (offsets[run] as number)] as number;
    // put in its place among those before it: for so few quicker than a call to sort them
    let at = block;
    for (; at > 0 && (blockMeans[at - 1] as number) > sum; at--) blockMeans[at] = blockMeans[at - 1] as number;
    blockMeans[at] = sum;
  }
  return ((blockMeans[BLOCKS / 2 - 1] as number) + (blockMeans[BLOCKS / 2] as number)) * (BLOCKS / RUNS / 2);
}

const blockMeans = new Float64Array(BLOCKS);
