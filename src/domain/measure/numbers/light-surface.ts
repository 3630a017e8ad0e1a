import { solve } from "./least-squares.ts";
import { robustSpread } from "./robust.ts";

/** Light as a smooth function of place: ln light = second-order polynomial in u and v (-1..1 across and down the sheet). */
export type LightSurface = {
  /** light at a place, in the unit of what was fitted */
  readonly at: (u: number, v: number) => number;
  /** of each point: ln value - ln surface; worked out when it is asked for, since few ask */
  readonly residuals: Float32Array;
};

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
  trusted: Int32Array | null = null,
): LightSurface | null {
  const among = trusted?.length ?? values.length;
  const stride = Math.max(1, Math.ceil(among / MOST_POINTS));
  const count = Math.ceil(among / stride);
  const points: Points = { u: new Float64Array(count), v: new Float64Array(count), logs: new Float64Array(count) };
  for (let index = 0; index < count; index++) {
    const at = trusted ? (trusted[index * stride] as number) : index * stride;
    points.u[index] = u[at] as number;
    points.v[index] = v[at] as number;
    points.logs[index] = Math.fround(logOf(values[at] as number));
  }
  const weights = new Float32Array(count).fill(1);
  const residuals = new Float64Array(count);
  let terms: number[] | null = null;
  for (let pass = 0; pass < 14; pass++) {
    const found = weightedFit(points, weights);
    if (!found) return null;
    terms = found;
    for (let index = 0; index < count; index++)
      residuals[index] = (points.logs[index] as number) - valueAt(found, points.u[index] as number, points.v[index] as number);
    if (pass < 6) {
      for (let index = 0; index < count; index++) weights[index] = 1 / Math.max(LEAST_SPREAD, Math.abs(residuals[index] as number));
    } else {
      const reach = TUKEY * Math.max(LEAST_SPREAD, robustSpread(residuals, 0));
      for (let index = 0; index < count; index++) {
        const share = (residuals[index] as number) / reach;
        weights[index] = Math.abs(share) < 1 ? (1 - share * share) ** 2 : 0;
      }
    }
  }
  const surface = terms as number[];
  let left: Float32Array | null = null;
  return {
    at: (x, y) => Math.exp(valueAt(surface, x, y)),
    get residuals() {
      left ??= residualsOf(surface, u, v, values);
      return left;
    },
  };
}

function residualsOf(surface: readonly number[], u: ArrayLike<number>, v: ArrayLike<number>, values: Float32Array): Float32Array {
  const residuals = new Float32Array(values.length);
  for (let at = 0; at < residuals.length; at++)
    residuals[at] = Math.fround(logOf(values[at] as number)) - valueAt(surface, u[at] as number, v[at] as number);
  return residuals;
}

const logOf = (value: number) => Math.log(Math.max(1e-6, value));

type Points = { readonly u: Float64Array; readonly v: Float64Array; readonly logs: Float64Array };

/** Weighted least squares; the sums of moments x^i y^j up to the fourth order are kept in plain variables, since it runs often. */
function weightedFit({ u, v, logs }: Points, weights: Float32Array): number[] | null {
  let s00 = 0;
  let s10 = 0;
  let s01 = 0;
  let s20 = 0;
  let s11 = 0;
  let s02 = 0;
  let s30 = 0;
  let s21 = 0;
  let s12 = 0;
  let s03 = 0;
  let s40 = 0;
  let s31 = 0;
  let s22 = 0;
  let s13 = 0;
  let s04 = 0;
  let t00 = 0;
  let t10 = 0;
  let t01 = 0;
  let t20 = 0;
  let t11 = 0;
  let t02 = 0;
  for (let index = 0; index < weights.length; index++) {
    const w = weights[index] as number;
    if (w === 0) continue;
    const x = u[index] as number;
    const y = v[index] as number;
    const wx = w * x;
    const wy = w * y;
    const wxx = wx * x;
    const wxy = wx * y;
    const wyy = wy * y;
    s00 += w;
    s10 += wx;
    s01 += wy;
    s20 += wxx;
    s11 += wxy;
    s02 += wyy;
    s30 += wxx * x;
    s21 += wxx * y;
    s12 += wxy * y;
    s03 += wyy * y;
    s40 += wxx * x * x;
    s31 += wxx * x * y;
    s22 += wxx * y * y;
    s13 += wxy * y * y;
    s04 += wyy * y * y;
    const log = logs[index] as number;
    t00 += w * log;
    t10 += wx * log;
    t01 += wy * log;
    t20 += wxx * log;
    t11 += wxy * log;
    t02 += wyy * log;
  }
  const matrix = [
    [s00, s10, s01, s20, s11, s02],
    [s10, s20, s11, s30, s21, s12],
    [s01, s11, s02, s21, s12, s03],
    [s20, s30, s21, s40, s31, s22],
    [s11, s21, s12, s31, s22, s13],
    [s02, s12, s03, s22, s13, s04],
  ];
  return solve(matrix.flat(), [t00, t10, t01, t20, t11, t02]);
}

const valueAt = (c: readonly number[], x: number, y: number): number =>
  (c[0] as number) +
  (c[1] as number) * x +
  (c[2] as number) * y +
  (c[3] as number) * x * x +
  (c[4] as number) * x * y +
  (c[5] as number) * y * y;
