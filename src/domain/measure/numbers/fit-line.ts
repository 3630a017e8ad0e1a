import { robustSpread } from "./robust.ts";

export type FittedLine = {
  /** t = offset + slope · s */
  readonly offset: number;
  readonly slope: number;
  /** points within the tolerance of the line */
  readonly agreeing: number;
  /** standard deviation of those points about the line */
  readonly residual: number;
  /** one-sigma uncertainty of t at s */
  readonly spreadAt: (s: number) => number;
};

const TRIALS = 160;
/** Neighbouring profiles see the same texture, so that only one in so many counts as an observation of its own. */
const CORRELATED = 4;
/** Pieces of a side in which texture is looked for that is longer than so many profiles: the grain of wood, the check of a cloth. */
const PIECES = 8;

/**
 * How many neighbouring points, in order along the line, count as one observation: by how much the means of eight pieces
 * scatter more than those of independent points would (batch means, two degrees of freedom taken by the line); at least four.
 */
export function observedTogether(residuals: Float64Array): number {
  const run = Math.floor(residuals.length / PIECES);
  const square = sumOfSquares(residuals) / Math.max(1, residuals.length);
  if (run < CORRELATED || !(square > 0)) return CORRELATED;
  let ofMeans = 0;
  for (let piece = 0; piece < PIECES; piece++) {
    let sum = 0;
    for (let index = piece * run; index < (piece + 1) * run; index++) sum += residuals[index] as number;
    ofMeans += (sum / run) ** 2 / (PIECES - 2);
  }
  return Math.max(CORRELATED, (run * ofMeans) / square);
}

export function sumOfSquares(values: Float64Array): number {
  let sum = 0;
  for (let index = 0; index < values.length; index++) sum += (values[index] as number) * (values[index] as number);
  return sum;
}

/** Tukey's constant: 95 % efficient for normal errors. */
export const TUKEY = 4.685;

/**
 * A straight line through points of which many may be wrong: the pair of points that most others agree with within
 * `tolerance`, then iterated reweighted least squares with Tukey's weights. Null below eight points.
 */
export function fitLine(s: readonly number[], t: readonly number[], tolerance: number): FittedLine | null {
  const count = s.length;
  if (count < 8) return null;
  let { offset, slope } = bestPair(s, t, tolerance);
  const near = new Float64Array(count);
  for (let pass = 0; pass < 6; pass++) {
    let kept = 0;
    for (let index = 0; index < count; index++) {
      const residual = (t[index] as number) - offset - slope * (s[index] as number);
      if (Math.abs(residual) < 1.5 * tolerance) near[kept++] = residual;
    }
    const reach = TUKEY * Math.max(0.05, robustSpread(near.subarray(0, kept), 0));
    let sw = 0;
    let sws = 0;
    let swt = 0;
    let swss = 0;
    let swst = 0;
    for (let index = 0; index < count; index++) {
      const x = s[index] as number;
      const y = t[index] as number;
      const residual = y - offset - slope * x;
      if (Math.abs(residual) >= reach) continue;
      const share = residual / reach;
      const weight = (1 - share * share) ** 2;
      sw += weight;
      sws += weight * x;
      swt += weight * y;
      swss += weight * x * x;
      swst += weight * x * y;
    }
    const determinant = sw * swss - sws * sws;
    if (!(determinant > 1e-9)) break;
    slope = (sw * swst - sws * swt) / determinant;
    offset = (swt - slope * sws) / sw;
  }
  const agreeing = new Float64Array(count);
  let n = 0;
  let sum = 0;
  for (let index = 0; index < count; index++) {
    const residual = (t[index] as number) - offset - slope * (s[index] as number);
    if (!(Math.abs(residual) < tolerance)) continue;
    agreeing[n++] = residual;
    sum += s[index] as number;
  }
  if (n < 8) return null;
  const residuals = agreeing.subarray(0, n);
  const residual = Math.sqrt(sumOfSquares(residuals) / n);
  const mean = sum / n;
  let sxx = 0;
  for (let index = 0; index < count; index++) {
    const away = (t[index] as number) - offset - slope * (s[index] as number);
    if (Math.abs(away) < tolerance) sxx += ((s[index] as number) - mean) ** 2;
  }
  const together = observedTogether(residuals);
  const spreadAt = (x: number) => residual * Math.sqrt(together * (1 / n + (x - mean) ** 2 / Math.max(1e-9, sxx)));
  return { offset, slope, agreeing: n, residual, spreadAt };
}

/** The same points give the same pairs: nothing here is left to chance. */
function bestPair(s: readonly number[], t: readonly number[], tolerance: number): { offset: number; slope: number } {
  const count = s.length;
  let best = { offset: 0, slope: 0 };
  let most = -1;
  for (let trial = 0; trial < TRIALS; trial++) {
    const first = (trial * 7919) % count;
    const second = (first + Math.floor(count * (0.25 + 0.5 * ((trial * 0.618034) % 1)))) % count;
    const run = (s[second] as number) - (s[first] as number);
    if (Math.abs(run) < 1e-9) continue;
    const slope = ((t[second] as number) - (t[first] as number)) / run;
    const offset = (t[first] as number) - slope * (s[first] as number);
    let agreeing = 0;
    for (let index = 0; index < count; index++) {
      if (Math.abs((t[index] as number) - offset - slope * (s[index] as number)) < tolerance) agreeing++;
    }
    if (agreeing > most) {
      most = agreeing;
      best = { offset, slope };
      if (most === count) break;
    }
  }
  return best;
}
