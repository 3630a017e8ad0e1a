import { fitLine } from "../numbers/fit-line.ts";
import { solve } from "../numbers/least-squares.ts";
import { robustSpread } from "../numbers/robust.ts";

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
  let columns: Float64Array = new Float64Array(rows);
  for (let row = 0; row < rows; row++) columns[row] = (startPx[row] as number) + (widthPx - 1) / 2;
  let places: EdgePlaces | null = null;
  for (const reach of [widthPx / 2, 12, 8, 8]) {
    const found = new Float64Array(rows);
    const circle = circleOf(widthPx, reach);
    for (let row = 0; row < rows; row++)
      found[row] = centroid(strip, row, (columns[row] as number) - (startPx[row] as number), reach, circle, polarity);
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

/** For each place of a row the cosine and sine of its angle in a window of this half-width. */
type Circle = { readonly cosines: Float64Array; readonly sines: Float64Array };

function circleOf(widthPx: number, reach: number): Circle {
  const cosines = new Float64Array(widthPx);
  const sines = new Float64Array(widthPx);
  for (let k = 0; k < widthPx; k++) {
    cosines[k] = Math.cos((Math.PI * k) / reach);
    sines[k] = Math.sin((Math.PI * k) / reach);
  }
  return { cosines, sines };
}

/** Centroid of the derivative under a Hamming window; NaN where the row has no rise there. */
function centroid(
  { widthPx, data, startPx }: EdgeStrip,
  row: number,
  centre: number,
  reach: number,
  { cosines, sines }: Circle,
  polarity: 1 | -1,
): number {
  // whole in the engine too, as an index must be
  const first = Math.max(0, Math.ceil(centre - 0.5 - reach)) | 0;
  const last = Math.min(widthPx - 2, Math.floor(centre - 0.5 + reach)) | 0;
  // The cosine of each place less the centre comes from those of both: many times quicker than a cosine for each.
  const toCentre = (Math.PI * (centre - 0.5)) / reach;
  const centreX = Math.cos(toCentre);
  const centreY = Math.sin(toCentre);
  let sum = 0;
  let moment = 0;
  for (let k = first, at = row * widthPx + first; k <= last; k++, at++) {
    const cosine = (cosines[k] as number) * centreX + (sines[k] as number) * centreY;
    const rise = polarity * ((data[at + 1] as number) - (data[at] as number)) * (0.54 + 0.46 * cosine);
    sum += rise;
    moment += rise * (k + 0.5 - centre);
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
  if (!line) return null;
  const columns = new Float64Array(found.length);
  for (let row = 0; row < columns.length; row++) columns[row] = line.offset + line.slope * row;
  return columns;
}

/** Least squares over the rows that agree; null when most do not. */
function fitPlaces(found: Float64Array, start: Float64Array, degree: 1 | 3): EdgePlaces | null {
  const rows = found.length;
  const agree = new Uint8Array(rows);
  const residuals = new Float64Array(rows);
  let columns = start;
  for (let pass = 0; pass < 3; pass++) {
    let known = 0;
    for (let row = 0; row < rows; row++) {
      const residual = (found[row] as number) - (columns[row] as number);
      if (Number.isFinite(residual)) residuals[known++] = residual;
    }
    const limit = Math.max(LEAST_TOLERANCE_PX, 4 * robustSpread(residuals.subarray(0, known)));
    let agreeing = 0;
    for (let row = 0; row < rows; row++) {
      agree[row] = Math.abs((found[row] as number) - (columns[row] as number)) <= limit ? 1 : 0;
      agreeing += agree[row] as number;
    }
    if (agreeing < Math.max(FEWEST_ROWS, 0.5 * rows)) return null;
    const coefficients = polynomial(found, agree, degree);
    if (!coefficients) return null;
    const [c0, c1, c2 = 0, c3 = 0] = coefficients as [number, number, number?, number?];
    columns = new Float64Array(rows);
    for (let row = 0; row < rows; row++) {
      const t = placeOf(row, rows);
      columns[row] = c0 + t * (c1 + t * (c2 + t * c3));
    }
  }
  return { columns, agree };
}

/** A row as a place from -1 to 1, so that the sums stay well conditioned. */
const placeOf = (row: number, rows: number) => (2 * row) / (rows - 1) - 1;

function polynomial(values: Float64Array, use: Uint8Array, degree: 1 | 3): number[] | null {
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let s4 = 0;
  let s5 = 0;
  let s6 = 0;
  let t0 = 0;
  let t1 = 0;
  let t2 = 0;
  let t3 = 0;
  for (let row = 0; row < values.length; row++) {
    if (use[row] !== 1) continue;
    const value = values[row] as number;
    const t = placeOf(row, values.length);
    const square = t * t;
    const cube = square * t;
    s0++;
    s1 += t;
    s2 += square;
    s3 += cube;
    s4 += square * square;
    s5 += square * cube;
    s6 += cube * cube;
    t0 += value;
    t1 += t * value;
    t2 += square * value;
    t3 += cube * value;
  }
  return degree === 1
    ? solve([s0, s1, s1, s2], [t0, t1])
    : solve([s0, s1, s2, s3, s1, s2, s3, s4, s2, s3, s4, s5, s3, s4, s5, s6], [t0, t1, t2, t3]);
}

export const meanSlope = (places: Float64Array): number => ((places.at(-1) as number) - (places[0] as number)) / (places.length - 1);

/** The middle rows over which the edge passes a whole number of columns; all rows when it passes less than one. */
export function wholeCycles(columns: Float64Array): { readonly first: number; readonly count: number } {
  const slope = Math.abs(meanSlope(columns));
  const cycles = Math.floor(slope * columns.length);
  const count = cycles >= 1 ? Math.min(columns.length, Math.round(cycles / slope)) : columns.length;
  return { first: Math.floor((columns.length - count) / 2), count };
}
