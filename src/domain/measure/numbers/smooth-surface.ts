import { solve } from "./least-squares.ts";
import { robustSpread } from "./robust.ts";

/** A value at a place, each coordinate from -1 to 1. */
export type ValueAt = { readonly u: number; readonly v: number; readonly value: number };

export type SmoothSurface = {
  /** of 1, u, v, u·v, u², v² and, where asked for, of a hill in the middle, (1 - u²) (1 - v²), which the rim does not show */
  readonly terms: readonly number[];
  /** covariance of the terms for values that scatter by 1, row by row */
  readonly unitCovariance: readonly number[];
  /** how far the values scatter round the surface: 1.4826 × median absolute deviation */
  readonly scatter: number;
};

export const SURFACE_TERMS = 7;
/** Tukey's constant: 95 % efficient for normal errors. */
const TUKEY = 4.685;
const PASSES = 8;

export const termsAt = (u: number, v: number): number[] => [1, u, v, u * v, u * u, v * v, (1 - u * u) * (1 - v * v)];

/** Smooth surface of second order (6 terms), or with a hill in its middle (7), through scattered values, by iterated least squares with Tukey's weights; null where the places do not fix it. */
export function fitSurface(values: readonly ValueAt[], n: 6 | 7): SmoothSurface | null {
  if (values.length <= n) return null;
  const rows = values.map(({ u, v }) => termsAt(u, v).slice(0, n));
  let trust = values.map(() => 1);
  let matrix: number[] = [];
  let terms: readonly number[] = [];
  let scatter = 0;
  for (let pass = 0; pass < PASSES; pass++) {
    matrix = new Array<number>(n * n).fill(0);
    const right = new Array<number>(n).fill(0);
    for (let index = 0; index < rows.length; index++)
      addRow(matrix, right, rows[index] as number[], trust[index] as number, (values[index] as ValueAt).value);
    const found = solve(matrix, right);
    if (!found) return null;
    terms = found;
    const residuals = values.map(({ value }, index) => value - sumOf(found, rows[index] as number[]));
    scatter = robustSpread(residuals, 0);
    if (scatter === 0) break;
    trust = residuals.map((residual) => {
      const share = residual / (TUKEY * scatter);
      return Math.abs(share) < 1 ? (1 - share * share) ** 2 : 0;
    });
  }
  const unitCovariance = inverted(matrix, n);
  return unitCovariance && { terms, unitCovariance, scatter };
}

/** Adds one value's part to the normal equations. */
export function addRow(matrix: number[], right: number[], row: readonly number[], weight: number, value: number): void {
  const n = row.length;
  for (let i = 0; i < n; i++) {
    right[i] = (right[i] as number) + weight * (row[i] as number) * value;
    for (let j = 0; j < n; j++) matrix[i * n + j] = (matrix[i * n + j] as number) + weight * (row[i] as number) * (row[j] as number);
  }
}

/** What a surface of these terms has where they are weighed so. */
export function sumOf(terms: readonly number[], row: readonly number[]): number {
  let sum = 0;
  for (let index = 0; index < row.length; index++) sum += (row[index] as number) * (terms[index] as number);
  return sum;
}

/** Inverse of a small symmetric matrix, row by row; null when it is singular. */
export function inverted(matrix: readonly number[], n: number): number[] | null {
  const columns = Array.from({ length: n }, (_, k) =>
    solve(
      matrix,
      Array.from({ length: n }, (_, i) => (i === k ? 1 : 0)),
    ),
  );
  return columns.every((column) => column !== null) ? columns.flat() : null;
}
