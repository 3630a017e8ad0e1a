import { solve } from "./least-squares.ts";
import { robustSpread } from "./robust.ts";

/** Light as a smooth function of place: ln light = second-order polynomial in u and v (-1..1 across and down the sheet). */
export type LightSurface = {
  /** light at a place, in the unit of what was fitted */
  readonly at: (u: number, v: number) => number;
  /** of each point: ln value - ln surface */
  readonly residuals: Float32Array;
};

const TERMS = 6;
/** Tukey's constant: 95 % efficient for normal errors. */
const TUKEY = 4.685;
/** Points that the fit is made on; more would fix the surface no better. */
const MOST_POINTS = 1500;
/** Residuals below this are never taken for outliers: codes of 8 bits alone differ by so much near white. */
const LEAST_SPREAD = 0.002;

/**
 * Fits robustly, so that dust and glare do not bend the surface: a first fit by least absolute deviations, then
 * iterated reweighted least squares with Tukey's weights. Only the `trusted` points (indices; all unless told) are fitted. Null when the points do not fix a surface.
 */
export function fitLight(
  u: ArrayLike<number>,
  v: ArrayLike<number>,
  values: Float32Array,
  trusted: Int32Array = Int32Array.from(values.keys()),
): LightSurface | null {
  const logs = values.map((value) => Math.log(Math.max(1e-6, value)));
  const stride = Math.max(1, Math.ceil(trusted.length / MOST_POINTS));
  const chosen = trusted.filter((_, index) => index % stride === 0);
  const weights = new Float32Array(chosen.length).fill(1);
  let terms: number[] | null = null;
  for (let pass = 0; pass < 14; pass++) {
    const found = weightedFit(u, v, logs, chosen, weights);
    if (!found) return null;
    terms = found;
    const residuals = Float64Array.from(chosen, (at) => (logs[at] as number) - valueAt(found, u[at] as number, v[at] as number));
    if (pass < 6) {
      for (let index = 0; index < weights.length; index++)
        weights[index] = 1 / Math.max(LEAST_SPREAD, Math.abs(residuals[index] as number));
    } else {
      const reach = TUKEY * Math.max(LEAST_SPREAD, robustSpread(residuals, 0));
      for (let index = 0; index < weights.length; index++) {
        const share = (residuals[index] as number) / reach;
        weights[index] = Math.abs(share) < 1 ? (1 - share * share) ** 2 : 0;
      }
    }
  }
  const surface = terms as number[];
  return {
    at: (x, y) => Math.exp(valueAt(surface, x, y)),
    residuals: logs.map((value, index) => value - valueAt(surface, u[index] as number, v[index] as number)),
  };
}

function weightedFit(
  u: ArrayLike<number>,
  v: ArrayLike<number>,
  logs: Float32Array,
  chosen: Int32Array,
  weights: Float32Array,
): number[] | null {
  const matrix = new Float64Array(TERMS * TERMS);
  const right = new Float64Array(TERMS);
  const term = new Float64Array(TERMS);
  term[0] = 1;
  for (let index = 0; index < chosen.length; index++) {
    const weight = weights[index] as number;
    if (weight === 0) continue;
    const at = chosen[index] as number;
    const x = u[at] as number;
    const y = v[at] as number;
    term[1] = x;
    term[2] = y;
    term[3] = x * x;
    term[4] = x * y;
    term[5] = y * y;
    for (let i = 0; i < TERMS; i++) {
      const weighted = weight * (term[i] as number);
      right[i] = (right[i] as number) + weighted * (logs[at] as number);
      for (let j = i; j < TERMS; j++) matrix[i * TERMS + j] = (matrix[i * TERMS + j] as number) + weighted * (term[j] as number);
    }
  }
  for (let i = 0; i < TERMS; i++) for (let j = 0; j < i; j++) matrix[i * TERMS + j] = matrix[j * TERMS + i] as number;
  return solve(Array.from(matrix), Array.from(right));
}

const valueAt = (c: readonly number[], x: number, y: number): number =>
  (c[0] as number) +
  (c[1] as number) * x +
  (c[2] as number) * y +
  (c[3] as number) * x * x +
  (c[4] as number) * x * y +
  (c[5] as number) * y * y;
