import { ranked } from "../numbers/robust.ts";
import type { GridPlane } from "../planes/grid-plane.ts";
import { takenPatch } from "../planes/mask.ts";
import { CHAIN, longestWay } from "./longest-way.ts";

/** A small patch that is lighter or darker than the plain ground round it. Lengths in px of its plane. */
export type Speck = {
  readonly x: number;
  readonly y: number;
  /** where it is at least half as strong as at its strongest */
  readonly areaPx: number;
  /** the longest way through it, bends followed */
  readonly lengthPx: number;
  /** how far it bulges from the straight line between the ends of that way */
  readonly bowPx: number;
  /** from end to end of that way, along x and y of its plane */
  readonly acrossPx: number;
  readonly downPx: number;
  readonly isDark: boolean;
  /** places in its plane where it is at least half as strong as at its strongest */
  readonly core: readonly number[];
};

/** The ground is the median of squares of so many px, between their middles by bilinear weights. */
const SQUARE_PX = 24;
const LEAST_Z = 5;
/** ln of light: fainter specks cannot be told from JPEG's own. */
const LEAST_CONTRAST = 0.05;
/** Of both limits, down to which a speck goes on. */
const SKIRT = 0.5;
const FEWEST_PX = 3;
const LEAST_SPREAD = 0.002;
const SPREAD_SAMPLES = 4000;

/** How far each cell must stand off its ground to be of a speck, from what all cells stand off theirs (0 outside the plane). */
export type SpeckLimits = (rest: Float32Array) => Float32Array;

/**
 * Specks on a plane of ln light that is plain but for them; NaN is no part of it. Slightly smoothed (1 2 1), its ground
 * taken away, what passes the limit is a speck, with all that touches it down to half of the limit there.
 * @param limitsOf five robust spreads and 5 % of the light unless told
 */
export function findSpecks(plane: GridPlane, limitsOf: SpeckLimits = evenLimits): Speck[] {
  const rest = restOf(plane);
  const limits = limitsOf(rest);
  const { width, height } = plane;
  const state = new Int8Array(rest.length);
  for (let at = 0; at < rest.length; at++) {
    const value = rest[at] as number;
    const skirt = SKIRT * (limits[at] as number);
    if (value > skirt) state[at] = 1;
    else if (value < -skirt) state[at] = -1;
  }
  const specks: Speck[] = [];
  for (let start = 0; start < state.length; start++) {
    if (state[start] === 0 || Math.abs(rest[start] as number) < (limits[start] as number)) continue;
    const pixels = takenPatch(state, width, height, start);
    if (pixels.length >= FEWEST_PX) specks.push(speckOf(pixels, width, rest));
  }
  return specks;
}

const evenLimits: SpeckLimits = (rest) => new Float32Array(rest.length).fill(Math.max(LEAST_CONTRAST, LEAST_Z * spreadOf(rest)));

/** Values smoothed by 1 2 1 less their ground; 0 outside the plane. Written for speed: every cell of the border passes here. */
export function restOf({ width, height, data }: GridPlane): Float32Array {
  const ground = groundOf({ width, height, data });
  const rest = new Float32Array(data.length);
  const column = new Int32Array(width);
  const share = new Float32Array(width);
  for (let x = 0; x < width; x++) {
    const at = squareAt(x, width, ground.columns);
    column[x] = at.square;
    share[x] = at.share;
  }
  const knots = new Float32Array(ground.columns + 1);
  for (let y = 1; y < height - 1; y++) {
    const row = squareAt(y, height, ground.rows);
    for (let k = 0; k <= ground.columns; k++) {
      const square = Math.min(k, ground.columns - 1);
      const upper = ground.middles[row.square * ground.columns + square] as number;
      const lower = ground.middles[Math.min(row.square + 1, ground.rows - 1) * ground.columns + square] as number;
      knots[k] = upper * (1 - row.share) + lower * row.share;
    }
    for (let x = 1, at = y * width + 1; x < width - 1; x++, at++) {
      const around = (data[at - 1] as number) + (data[at + 1] as number) + (data[at - width] as number) + (data[at + width] as number);
      const value = (4 * (data[at] as number) + around) / 8;
      if (Number.isNaN(value)) continue;
      const k = column[x] as number;
      const left = knots[k] as number;
      rest[at] = value - left - ((knots[k + 1] as number) - left) * (share[x] as number);
    }
  }
  return rest;
}

/** The square whose middle comes before a place, and how far the place is on its way to the next. */
function squareAt(at: number, length: number, squares: number): { square: number; share: number } {
  const place = Math.min(squares - 1, Math.max(0, ((at + 0.5) * squares) / length - 0.5));
  const square = Math.floor(place);
  return { square, share: place - square };
}

type Ground = { readonly columns: number; readonly rows: number; readonly middles: Float32Array };

function groundOf({ width, height, data }: GridPlane): Ground {
  const columns = Math.max(1, Math.round(width / SQUARE_PX));
  const rows = Math.max(1, Math.round(height / SQUARE_PX));
  const middles = new Float32Array(columns * rows).fill(Number.NaN);
  const values = new Float64Array(Math.ceil(width / columns / 2 + 1) * Math.ceil(height / rows / 2 + 1));
  for (let square = 0; square < middles.length; square++) {
    const left = Math.ceil(((square % columns) * width) / columns);
    const right = (((square % columns) + 1) * width) / columns;
    const top = Math.ceil((Math.floor(square / columns) * height) / rows);
    const bottom = ((Math.floor(square / columns) + 1) * height) / rows;
    let count = 0;
    for (let y = top; y < bottom; y += 2) {
      for (let x = left; x < right; x += 2) {
        const value = data[y * width + x] as number;
        if (!Number.isNaN(value)) values[count++] = value;
      }
    }
    if (count > 0) middles[square] = ranked(values.subarray(0, count), count >> 1);
  }
  return { columns, rows, middles: withoutGaps(middles, columns) };
}

/** Squares outside the plane take the value of the nearest of their row, else of the row before. */
function withoutGaps(middles: Float32Array, columns: number): Float32Array {
  const filled = middles.slice();
  const nearest = (square: number) => {
    const first = square - (square % columns);
    for (let away = 1; away < columns; away++) {
      for (const other of [square - away, square + away]) {
        if (other >= first && other < first + columns && !Number.isNaN(middles[other])) return middles[other] as number;
      }
    }
    return filled[Math.max(0, square - columns)] as number;
  };
  for (let square = 0; square < filled.length; square++) if (Number.isNaN(filled[square])) filled[square] = nearest(square);
  return filled;
}

/** The largest of what the middle, the 95th and the 98th percentile say: JPEG flattens most of a plain ground. */
function spreadOf(rest: Float32Array): number {
  const stride = Math.max(1, Math.floor(rest.length / SPREAD_SAMPLES));
  const sizes: number[] = [];
  for (let at = 0; at < rest.length; at += stride) if (rest[at] !== 0) sizes.push(Math.abs(rest[at] as number));
  const sorted = Float64Array.from(sizes).sort();
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))] ?? 0;
  return Math.max(LEAST_SPREAD, at(0.5) / 0.6745, at(0.95) / 1.96, at(0.98) / 2.326);
}

function speckOf(pixels: readonly number[], width: number, rest: Float32Array): Speck {
  const half = pixels.reduce((most, at) => Math.max(most, Math.abs(rest[at] as number)), 0) / 2;
  const core = pixels.filter((at) => Math.abs(rest[at] as number) >= half);
  const areaPx = core.length;
  const { from: end, to: other, lengthPx } = longestWay(pixels, width);
  const place = (at: number) => ({ x: at % width, y: Math.floor(at / width) });
  const [from, to] = [place(end), place(other)];
  const [acrossPx, downPx] = [to.x - from.x, to.y - from.y];
  const chordPx = Math.max(1, Math.hypot(acrossPx, downPx));
  const offChord = (at: number) => Math.abs((place(at).x - from.x) * downPx - (place(at).y - from.y) * acrossPx) / chordPx;
  return {
    x: pixels.reduce((sum, at) => sum + (at % width), 0) / pixels.length,
    y: pixels.reduce((sum, at) => sum + Math.floor(at / width), 0) / pixels.length,
    areaPx,
    // its skirts reach as far beyond its ends as they do beside it
    lengthPx: Math.max(1, CHAIN * lengthPx + 1 - (pixels.length - areaPx) / (lengthPx + 1)),
    bowPx: core.reduce((most, at) => Math.max(most, offChord(at)), 0),
    acrossPx,
    downPx,
    isDark: (rest[pixels[0] as number] as number) < 0,
    core,
  };
}
