import { fitLine } from "./fit-line.ts";
import { solve } from "./least-squares.ts";
import { robustSpread } from "./robust.ts";

/**
 * A strip of pixels along one nearly upright edge. Each row may begin at its own whole column, so that the
 * strip follows a leaning edge without resampling.
 */
export type EdgeStrip = {
  readonly rows: number;
  readonly widthPx: number;
  /** linear luminance, row by row */
  readonly data: Float32Array;
  /** column of the frame at which each row begins */
  readonly startPx: Int32Array;
};

export type EdgePlaces = {
  /** column of the edge in each row, on a straight line or a cubic */
  readonly columns: Float64Array;
  /** rows whose own place agrees with it: 1, else 0 (dust, a nick in the paper) */
  readonly agree: Uint8Array;
};

/** Rows below which a strip says nothing. */
export const FEWEST_ROWS = 40;
/** From this many rows on the edge may be slightly bent (lens, curl): a cubic follows it. */
const ROWS_FOR_CUBIC = 200;
/** Rows that the first line is found from; more would find it no better. */
const ROWS_FOR_LINE = 400;
/** How far a row's own place may lie from the first line, and from the last one at least. */
const FIRST_TOLERANCE_PX = 2;
const LEAST_TOLERANCE_PX = 0.5;

/**
 * The edge in each row: centroid of the derivative under a Hamming window, first over the whole row, then near the line
 * found before; a line or cubic through the rows. Null when there is no edge.
 */
export function edgePlaces(strip: EdgeStrip): EdgePlaces | null {
  const { rows, widthPx, startPx } = strip;
  const polarity = polarityOf(strip);
  let columns: Float64Array = Float64Array.from({ length: rows }, (_, row) => (startPx[row] as number) + (widthPx - 1) / 2);
  let places: EdgePlaces | null = null;
  for (const reach of [widthPx / 2, 12, 8, 8]) {
    const found = new Float64Array(rows);
    for (let row = 0; row < rows; row++)
      found[row] = centroid(strip, row, (columns[row] as number) - (startPx[row] as number), reach, polarity);
    const start: Float64Array | null = places ? columns : firstLine(found);
    places = start && fitPlaces(found, start, rows >= ROWS_FOR_CUBIC ? 3 : 1);
    if (!places) return null;
    columns = places.columns;
  }
  return places;
}

/** 1 when the right is brighter, -1 when the left is. */
function polarityOf({ rows, widthPx, data }: EdgeStrip): 1 | -1 {
  const third = Math.floor(widthPx / 3);
  let difference = 0;
  for (let row = 0; row < rows; row++) {
    for (let k = 0; k < third; k++) difference += (data[(row + 1) * widthPx - 1 - k] as number) - (data[row * widthPx + k] as number);
  }
  return difference >= 0 ? 1 : -1;
}

/** Centroid of the derivative under a Hamming window; NaN where the row has no rise there. */
function centroid({ widthPx, data, startPx }: EdgeStrip, row: number, centre: number, reach: number, polarity: 1 | -1): number {
  const first = Math.max(0, Math.ceil(centre - 0.5 - reach));
  const last = Math.min(widthPx - 2, Math.floor(centre - 0.5 + reach));
  let sum = 0;
  let moment = 0;
  for (let k = first; k <= last; k++) {
    const at = row * widthPx + k;
    const from = k + 0.5 - centre;
    const rise = polarity * ((data[at + 1] as number) - (data[at] as number)) * (0.54 + 0.46 * Math.cos((Math.PI * from) / reach));
    sum += rise;
    moment += rise * from;
  }
  const offset = moment / sum;
  return sum > 0 && Math.abs(offset) <= reach ? (startPx[row] as number) + centre + offset : Number.NaN;
}

/** A line that most rows agree on, however wrong the others are. */
function firstLine(found: Float64Array): Float64Array | null {
  const stride = Math.ceil(found.length / ROWS_FOR_LINE);
  const known = Array.from(found.keys()).filter((row) => row % stride === 0 && Number.isFinite(found[row]));
  const line = fitLine(
    known,
    known.map((row) => found[row] as number),
    FIRST_TOLERANCE_PX,
  );
  return line && found.map((_, row) => line.offset + line.slope * row);
}

/** Least squares over the rows that agree; null when most do not. */
function fitPlaces(found: Float64Array, start: Float64Array, degree: 1 | 3): EdgePlaces | null {
  const rows = found.length;
  const t = (row: number) => (2 * row) / (rows - 1) - 1;
  const known = Array.from(found.keys()).filter((row) => Number.isFinite(found[row]));
  let columns = start;
  let agree = new Uint8Array(rows);
  for (let pass = 0; pass < 3; pass++) {
    const residual = (row: number) => (found[row] as number) - (columns[row] as number);
    const limit = Math.max(LEAST_TOLERANCE_PX, 4 * robustSpread(known.map(residual)));
    agree = Uint8Array.from({ length: rows }, (_, row) => (Math.abs(residual(row)) <= limit ? 1 : 0));
    const use = known.filter((row) => agree[row] === 1);
    if (use.length < Math.max(FEWEST_ROWS, 0.5 * rows)) return null;
    const coefficients = polynomial(use, t, found, degree);
    if (!coefficients) return null;
    columns = Float64Array.from({ length: rows }, (_, row) => coefficients.reduceRight((sum, c) => sum * t(row) + c, 0));
  }
  return { columns, agree };
}

function polynomial(use: readonly number[], t: (row: number) => number, values: Float64Array, degree: number): number[] | null {
  const n = degree + 1;
  const matrix = new Array<number>(n * n).fill(0);
  const right = new Array<number>(n).fill(0);
  const powers = new Float64Array(n);
  for (const row of use) {
    const place = t(row);
    powers[0] = 1;
    for (let i = 1; i < n; i++) powers[i] = (powers[i - 1] as number) * place;
    for (let i = 0; i < n; i++) {
      right[i] = (right[i] as number) + (powers[i] as number) * (values[row] as number);
      for (let j = 0; j < n; j++) matrix[i * n + j] = (matrix[i * n + j] as number) + (powers[i] as number) * (powers[j] as number);
    }
  }
  return solve(matrix, right);
}

export const meanSlope = (places: Float64Array): number => ((places.at(-1) as number) - (places[0] as number)) / (places.length - 1);

/** The middle rows over which the edge passes a whole number of columns; all rows when it passes less than one. */
export function wholeCycles(columns: Float64Array): { readonly first: number; readonly count: number } {
  const slope = Math.abs(meanSlope(columns));
  const cycles = Math.floor(slope * columns.length);
  const count = cycles >= 1 ? Math.min(columns.length, Math.round(cycles / slope)) : columns.length;
  return { first: Math.floor((columns.length - count) / 2), count };
}
