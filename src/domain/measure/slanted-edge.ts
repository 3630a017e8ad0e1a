import { solve } from "./least-squares.ts";
import { median, robustSpread } from "./robust.ts";

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

export type EdgeResponse = {
  /** lean of the edge from the columns, degrees; positive when it runs to the right on its way down */
  readonly angleDeg: number;
  /** how often the edge passes through all positions between two columns */
  readonly cycles: number;
  /** share of the quarter-pixel bins that no pixel fell into */
  readonly emptyShare: number;
  /** (bright - dark) / (bright + dark), and the step between them in linear light */
  readonly contrast: number;
  readonly step: number;
  readonly stepToNoise: number;
  /** distance between 10 % and 90 % of the step, px across the edge */
  readonly widthPx: number;
  /** how far the bright side rises above its plateau and the dark side falls below its own; shares of the step */
  readonly overshoot: number;
  readonly undershoot: number;
  /** standard deviation of the averaged bright plateau, share of the step: how far an overshoot may be chance */
  readonly plateauSpread: number;
  /** largest change along one plateau, share of the step */
  readonly unevenness: number;
  /** cycles per pixel across the edge, from 0 in steps of about 0.005, and the modulation there (1 at 0) */
  readonly frequencies: Float64Array;
  readonly modulation: Float64Array;
  /** where the modulation first falls to 0.5 and to 0.1, cycles per pixel; null when it does not below 1 */
  readonly sfr50: number | null;
  readonly sfr10: number | null;
};

export type EdgeRefusal = { readonly refused: string };

/** Rows below which a strip says nothing. */
const FEWEST_ROWS = 40;
/** Quarter-pixel bins. */
const BINS_PER_PX = 4;
const FREQUENCY_STEP = 0.005;
/** From this many rows on the edge may be slightly bent (lens, curl): a cubic follows it. */
const ROWS_FOR_CUBIC = 200;

/**
 * Spatial frequency response of one edge, the "e-SFR" of ISO 12233:2014, clauses 6.2.4 and 6.2.5, on linear light:
 * edge place in each row as the centroid of the derivative, fit through the rows, whole phase cycles, projection into
 * bins of a quarter pixel, derivative by [-1/2, 0, +1/2], Hamming window, modulus of the Fourier transform, response
 * of that derivative divided out, and the frequency axis divided by the cosine of the true angle.
 *
 * The response of the derivative filter is sin(w)/w with w = 2 pi f / 4 (the formula as printed in the standard fits
 * a two-point filter). Two things are added for edges of real prints: each row is scaled to its own smoothed plateaus,
 * so that uneven light along the edge does no harm, and rows whose plateaus are not plain are left out.
 *
 * Returns a refusal, in words for the keeper, when there is no readable edge.
 */
export function slantedEdge(strip: EdgeStrip): EdgeResponse | EdgeRefusal {
  if (strip.rows < FEWEST_ROWS || strip.widthPx < 16) return { refused: "the edge is too short to be read" };
  const places = edgePlaces(strip);
  if (!places) return { refused: "no straight edge was found here" };
  const levels = plateaus(strip, places);
  if (!levels) return { refused: "the edge leaves the strip that was looked at" };
  const rows = plainRows(levels, wholeCycles(places));
  if (rows.length < FEWEST_ROWS || rows.length < 0.4 * strip.rows)
    return { refused: "what lies beside the edge changes too much along it" };
  const { dark, bright } = levelsOf(levels, rows);
  const contrast = (bright - dark) / (bright + dark);
  if (!(contrast >= 0.05)) return { refused: "the edge has too little contrast (below 5 %)" };
  const slope = meanSlope(places);
  const cosine = 1 / Math.hypot(1, slope);
  const spread = project(strip, places, levels, rows);
  const stepToNoise = 1 / Math.max(1e-6, spread.noise);
  if (stepToNoise < 10) return { refused: "noise or texture drowns the edge (step below ten times the noise)" };
  const { frequencies, modulation } = response(spread.values, cosine);
  return {
    angleDeg: (Math.atan(slope) * 180) / Math.PI,
    cycles: Math.abs(slope) * strip.rows,
    emptyShare: spread.emptyShare,
    contrast,
    step: bright - dark,
    stepToNoise,
    widthPx: riseWidth(spread.values) * cosine,
    ...shapeOf(spread.values),
    frequencies,
    modulation,
    sfr50: firstFall(frequencies, modulation, 0.5),
    sfr10: firstFall(frequencies, modulation, 0.1),
  };
}

/** Column of the edge in each row, from a straight line or a cubic through the centroids; null when there is no edge. */
function edgePlaces(strip: EdgeStrip): Float64Array | null {
  const { rows, widthPx, startPx } = strip;
  const polarity = polarityOf(strip);
  let places: Float64Array = Float64Array.from({ length: rows }, (_, row) => (startPx[row] as number) + (widthPx - 1) / 2);
  for (const reach of [widthPx / 2, 12, 8, 8]) {
    const found = new Float64Array(rows);
    for (let row = 0; row < rows; row++)
      found[row] = centroid(strip, row, (places[row] as number) - (startPx[row] as number), reach, polarity);
    const fitted = fitPlaces(found, rows >= ROWS_FOR_CUBIC ? 3 : 1);
    if (!fitted) return null;
    places = fitted;
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

/** Least squares over the rows, those far off the line left out; null when most rows disagree. */
function fitPlaces(found: Float64Array, degree: 1 | 3): Float64Array | null {
  const rows = found.length;
  const t = (row: number) => (2 * row) / (rows - 1) - 1;
  let use = Array.from(found.keys()).filter((row) => Number.isFinite(found[row]));
  let fitted: Float64Array | null = null;
  for (let pass = 0; pass < 4; pass++) {
    if (use.length < Math.max(FEWEST_ROWS, 0.5 * rows)) return null;
    const coefficients = polynomial(use, t, found, pass === 0 ? 1 : degree);
    if (!coefficients) return null;
    const line = Float64Array.from({ length: rows }, (_, row) => coefficients.reduceRight((sum, c) => sum * t(row) + c, 0));
    const residuals = use.map((row) => (found[row] as number) - (line[row] as number));
    const limit = Math.max(0.5, 4 * robustSpread(residuals, median(residuals)));
    use = Array.from(found.keys()).filter((row) => Math.abs((found[row] as number) - (line[row] as number)) <= limit);
    fitted = line;
  }
  return fitted;
}

function polynomial(use: readonly number[], t: (row: number) => number, values: Float64Array, degree: number): number[] | null {
  const n = degree + 1;
  const matrix = new Array<number>(n * n).fill(0);
  const right = new Array<number>(n).fill(0);
  for (const row of use) {
    const powers = Array.from({ length: n }, (_, power) => t(row) ** power);
    for (let i = 0; i < n; i++) {
      right[i] = (right[i] as number) + (powers[i] as number) * (values[row] as number);
      for (let j = 0; j < n; j++) matrix[i * n + j] = (matrix[i * n + j] as number) + (powers[i] as number) * (powers[j] as number);
    }
  }
  return solve(matrix, right);
}

const meanSlope = (places: Float64Array): number => ((places.at(-1) as number) - (places[0] as number)) / (places.length - 1);

/** The middle rows over which the edge passes a whole number of columns; all rows when it passes less than one. */
function wholeCycles(places: Float64Array): { readonly first: number; readonly count: number } {
  const slope = Math.abs(meanSlope(places));
  const cycles = Math.floor(slope * places.length);
  const count = cycles >= 1 ? Math.min(places.length, Math.round(cycles / slope)) : places.length;
  return { first: Math.floor((places.length - count) / 2), count };
}

type Plateaus = {
  /** px to both sides of the edge that every row covers */
  readonly reach: number;
  /** levels left and right of the edge, smoothed along it */
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** how much each side changes between its near and its far half, smoothed likewise */
  readonly drift: Float64Array;
};

function plateaus(strip: EdgeStrip, places: Float64Array): Plateaus | null {
  const { rows, widthPx, data, startPx } = strip;
  let reach = widthPx;
  for (let row = 0; row < rows; row++) {
    const from = (places[row] as number) - (startPx[row] as number);
    reach = Math.min(reach, from, widthPx - 1 - from);
  }
  reach = Math.floor(reach);
  if (reach < 8) return null;
  const left = new Float64Array(rows);
  const right = new Float64Array(rows);
  const leftDrift = new Float64Array(rows);
  const rightDrift = new Float64Array(rows);
  const middle = Math.round(0.7 * reach);
  const near = Math.round(0.4 * reach);
  for (let row = 0; row < rows; row++) {
    const edge = row * widthPx + Math.round((places[row] as number) - (startPx[row] as number));
    const leftFar = mean(data, edge - reach, edge - middle);
    const rightFar = mean(data, edge + middle, edge + reach);
    left[row] = mean(data, edge - reach, edge - near);
    right[row] = mean(data, edge + near, edge + reach);
    leftDrift[row] = leftFar - mean(data, edge - middle, edge - near);
    rightDrift[row] = rightFar - mean(data, edge + near, edge + middle);
  }
  const drifts = [smoothed(leftDrift), smoothed(rightDrift)] as const;
  const drift = Float64Array.from({ length: rows }, (_, row) =>
    Math.max(Math.abs(drifts[0][row] as number), Math.abs(drifts[1][row] as number)),
  );
  return { reach, left: smoothed(left), right: smoothed(right), drift };
}

function mean(data: Float32Array, from: number, to: number): number {
  let sum = 0;
  for (let at = from; at < to; at++) sum += data[at] as number;
  return sum / (to - from);
}

/** Running mean over 17 rows. */
function smoothed(values: Float64Array): Float64Array {
  const sums = new Float64Array(values.length + 1);
  for (let row = 0; row < values.length; row++) sums[row + 1] = (sums[row] as number) + (values[row] as number);
  return values.map((_, row) => {
    const from = Math.max(0, row - 8);
    const to = Math.min(values.length, row + 9);
    return ((sums[to] as number) - (sums[from] as number)) / (to - from);
  });
}

/** Rows whose step is near that of most and whose plateaus are plain. */
function plainRows({ left, right, drift }: Plateaus, { first, count }: { first: number; count: number }): number[] {
  const within = Array.from({ length: count }, (_, index) => first + index);
  const step = median(within.map((row) => (right[row] as number) - (left[row] as number)));
  return within.filter((row) => {
    const share = ((right[row] as number) - (left[row] as number)) / step;
    return share > 0.5 && share < 1.5 && (drift[row] as number) < 0.15 * Math.abs(step);
  });
}

function levelsOf({ left, right }: Plateaus, rows: readonly number[]): { dark: number; bright: number } {
  const a = rows.reduce((sum, row) => sum + (left[row] as number), 0) / rows.length;
  const b = rows.reduce((sum, row) => sum + (right[row] as number), 0) / rows.length;
  return { dark: Math.min(a, b), bright: Math.max(a, b) };
}

type Spread = {
  /** 0 on the dark side, 1 on the bright side; bin i covers (i - n/2) / 4 to (i + 1 - n/2) / 4 px along the row */
  readonly values: Float64Array;
  readonly emptyShare: number;
  /** standard deviation of single pixels on the plateaus, share of the step */
  readonly noise: number;
};

function project(strip: EdgeStrip, places: Float64Array, levels: Plateaus, rows: readonly number[]): Spread {
  const { widthPx, data, startPx } = strip;
  const bins = 2 * BINS_PER_PX * levels.reach;
  const sums = new Float64Array(bins);
  const squares = new Float64Array(bins);
  const counts = new Uint32Array(bins);
  const brightRight = levels.right.reduce((sum, value) => sum + value, 0) > levels.left.reduce((sum, value) => sum + value, 0);
  for (const row of rows) {
    const edge = (places[row] as number) - (startPx[row] as number);
    const dark = (brightRight ? levels.left[row] : levels.right[row]) as number;
    const step = Math.abs((levels.right[row] as number) - (levels.left[row] as number));
    const last = Math.min(widthPx - 1, Math.floor(edge + levels.reach));
    for (let k = Math.max(0, Math.ceil(edge - levels.reach)); k <= last; k++) {
      const distance = brightRight ? k - edge : edge - k;
      const bin = Math.floor(BINS_PER_PX * distance) + bins / 2;
      if (bin < 0 || bin >= bins) continue;
      const value = ((data[row * widthPx + k] as number) - dark) / step;
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
  const values = sums.map((sum, bin) => sum / (counts[bin] as number));
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

/** Modulus of the windowed line spread's transform, 1 at frequency 0, corrected for the derivative filter. */
function response(values: Float64Array, cosine: number): { frequencies: Float64Array; modulation: Float64Array } {
  const bins = values.length;
  const line = new Float64Array(bins);
  for (let bin = 1; bin < bins - 1; bin++) {
    const window = 0.54 + 0.46 * Math.cos((2 * Math.PI * (bin - (bins - 1) / 2)) / bins);
    line[bin] = (((values[bin + 1] as number) - (values[bin - 1] as number)) / 2) * window;
  }
  const total = line.reduce((sum, value) => sum + value, 0);
  const count = Math.round(1 / FREQUENCY_STEP) + 1;
  const frequencies = Float64Array.from({ length: count }, (_, k) => (k * FREQUENCY_STEP) / cosine);
  const modulation = frequencies.map((_, k) => {
    const perBin = (2 * Math.PI * k * FREQUENCY_STEP) / BINS_PER_PX;
    let real = 0;
    let imaginary = 0;
    for (let bin = 0; bin < bins; bin++) {
      real += (line[bin] as number) * Math.cos(perBin * bin);
      imaginary += (line[bin] as number) * Math.sin(perBin * bin);
    }
    const correction = perBin === 0 ? 1 : Math.min(10, perBin / Math.sin(perBin));
    return (Math.hypot(real, imaginary) / Math.abs(total)) * correction;
  });
  return { frequencies, modulation };
}

/** First frequency at which a curve falls below a level, between its points by a straight line. */
function firstFall(frequencies: Float64Array, modulation: Float64Array, level: number): number | null {
  const after = modulation.findIndex((value) => value < level);
  if (after < 1) return null;
  const [f0, f1] = [frequencies[after - 1] as number, frequencies[after] as number];
  const [m0, m1] = [modulation[after - 1] as number, modulation[after] as number];
  return f0 + ((m0 - level) / (m0 - m1)) * (f1 - f0);
}

/** px along the row between 10 % and 90 % of the step. */
function riseWidth(values: Float64Array): number {
  const above = values.findIndex((value, bin) => bin > 0.25 * values.length && value > 0.9);
  let below = above;
  while (below > 0 && (values[below] as number) > 0.1) below--;
  return Math.max(0, above - below) / BINS_PER_PX;
}

function shapeOf(values: Float64Array): Pick<EdgeResponse, "overshoot" | "undershoot" | "plateauSpread" | "unevenness"> {
  const half = values.length / 2;
  const smooth = (bin: number) => ((values[bin - 1] as number) + (values[bin] as number) + (values[bin + 1] as number)) / 3;
  const zone = (from: number, to: number) =>
    Array.from({ length: Math.floor((to - from) * half) - 1 }, (_, k) => Math.floor(from * half) + k + 1);
  const average = (bins: readonly number[], sign: 1 | -1) =>
    bins.reduce((sum, k) => sum + (values[sign === 1 ? half + k : half - 1 - k] as number), 0) / bins.length;
  const plateau = zone(0.4, 0.99);
  const brightLevel = average(plateau, 1);
  const darkLevel = average(plateau, -1);
  const close = zone(0, 0.4);
  const highest = Math.max(...close.map((k) => smooth(half + k)));
  const lowest = Math.min(...close.map((k) => smooth(half - 1 - k)));
  const change = ([1, -1] as const).map((sign) => Math.abs(average(zone(0.7, 0.99), sign) - average(zone(0.4, 0.7), sign)));
  return {
    overshoot: highest - brightLevel,
    undershoot: darkLevel - lowest,
    plateauSpread: Math.sqrt(plateau.reduce((sum, k) => sum + (smooth(half + k) - brightLevel) ** 2, 0) / plateau.length),
    unevenness: Math.max(...change),
  };
}
