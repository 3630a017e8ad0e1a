import { solve } from "../numbers/least-squares.ts";
import { robustSpread } from "../numbers/robust.ts";
import type { GridPlane } from "../planes/grid-plane.ts";

/**
 * The smooth light in which two planes of linear luminance differ, tones taken out: ln Y_A - ln Y_B as the sum of a second-order surface of
 * place (u, v: -1..1 across and down) and a second-order polynomial of ln Y_B, which stands for another tone curve or a veil. Both are
 * fitted at once, so that neither takes what is the other's, robustly (Tukey's weights), on at most 3000 places. Answers ln of the light.
 * Null when the places do not fix it. Source: common practice, no source.
 */
export function lightBetween(one: GridPlane, other: GridPlane, places: Int32Array): ((u: number, v: number) => number) | null {
  const { width, height } = one;
  const stride = Math.max(1, Math.ceil(places.length / MOST_PLACES));
  const chosen = places.filter((_, index) => index % stride === 0);
  const ln = (plane: GridPlane) => Float64Array.from(chosen, (at) => Math.log(DARKEST + Math.max(0, plane.data[at] as number)));
  const [here, there] = [ln(one), ln(other)];
  const mean = there.reduce((sum, value) => sum + value, 0) / there.length;
  const rows = Array.from(chosen, (at, index) => {
    const tone = (there[index] as number) - mean;
    return [...termsAt((2 * (at % width)) / (width - 1) - 1, (2 * Math.floor(at / width)) / (height - 1) - 1), tone, tone * tone];
  });
  const wanted = here.map((value, index) => value - (there[index] as number));
  let weights = new Float64Array(rows.length).fill(1);
  let found: number[] | null = null;
  for (let pass = 0; pass < PASSES; pass++) {
    const terms = weighted(rows, wanted, weights);
    if (!terms) return null;
    found = terms;
    const left = wanted.map((value, index) => value - dot(terms, rows[index] as readonly number[]));
    const reach = TUKEY * Math.max(LEAST_SPREAD, robustSpread(left, 0));
    weights = left.map((value) => (Math.abs(value) < reach ? (1 - (value / reach) ** 2) ** 2 : 0));
  }
  const terms = found as number[];
  return (u, v) => dot(terms, termsAt(u, v));
}

const MOST_PLACES = 3000;
const DARKEST = 0.004;
const PASSES = 8;
const TUKEY = 4.685;
const LEAST_SPREAD = 0.002;
/** Added to the squares, per place: keeps tones at their own curve where a picture has hardly any. */
const RIDGE = 1e-5;

const termsAt = (u: number, v: number): number[] => [1, u, v, u * u, u * v, v * v];

/** Over as many terms as the shorter of both has. */
function dot(terms: readonly number[], row: readonly number[]): number {
  let sum = 0;
  for (let k = 0; k < row.length; k++) sum += (terms[k] as number) * (row[k] as number);
  return sum;
}

function weighted(rows: readonly (readonly number[])[], wanted: Float64Array, weights: Float64Array): number[] | null {
  const count = rows[0]?.length ?? 0;
  const matrix = new Array<number>(count * count).fill(0);
  const right = new Array<number>(count).fill(0);
  for (const [index, row] of rows.entries()) {
    const weight = weights[index] as number;
    if (weight === 0) continue;
    for (let i = 0; i < count; i++) {
      const part = weight * (row[i] as number);
      right[i] = (right[i] as number) + part * (wanted[index] as number);
      for (let j = 0; j < count; j++) matrix[i * count + j] = (matrix[i * count + j] as number) + part * (row[j] as number);
    }
  }
  for (let i = 6; i < count; i++) matrix[i * count + i] = (matrix[i * count + i] as number) + RIDGE * rows.length;
  return solve(matrix, right);
}
