import { solve } from "./least-squares.ts";
import { median } from "./robust.ts";

/** A smooth function of place, as weights of the powers of u and v; see `powersOf`. */
export type Surface = readonly number[];

/** u, v: -1 to 1 across and down. The first three bend nothing, six bend once, ten hold what a lens bends (barrel). */
export const powersOf = (u: number, v: number): number[] => [1, u, v, u * u, u * v, v * v, u * u * u, u * u * v, u * v * v, v * v * v];

export const FLAT: Surface = new Array<number>(10).fill(0);

export function heightAt(c: Surface, u: number, v: number): number {
  return (
    (c[0] as number) +
    u * ((c[1] as number) + u * ((c[3] as number) + u * (c[6] as number) + v * (c[7] as number)) + v * (c[4] as number)) +
    v * ((c[2] as number) + v * ((c[5] as number) + u * (c[8] as number) + v * (c[9] as number)))
  );
}

export type Shift = { readonly u: number; readonly v: number; readonly x: number; readonly y: number };

const PASSES = 8;
/** Tukey's constant: 95 % efficient for normal errors. */
const TUKEY = 4.685;
const LEAST_SPREAD = 0.01;
/** So many shifts fix each term well enough. */
const SHIFTS_PER_TERM = 2.4;

/**
 * Smooth surfaces through shifts, by iterated reweighted least squares with Tukey's weights on the length of what is left
 * over, so that single wrong shifts do not bend them. As many terms as the number of shifts can fix. Null below 8.
 */
export function fitShifts(shifts: readonly Shift[]): { readonly x: Surface; readonly y: Surface } | null {
  const terms = [10, 6, 3].find((count) => shifts.length >= Math.max(8, SHIFTS_PER_TERM * count));
  if (!terms) return null;
  let weights = shifts.map(() => 1);
  let found: { x: Surface; y: Surface } | null = null;
  for (let pass = 0; pass < PASSES; pass++) {
    const x = weightedFit(shifts, weights, terms, (shift) => shift.x);
    const y = weightedFit(shifts, weights, terms, (shift) => shift.y);
    if (!x || !y) return found;
    const surfaces = { x, y };
    found = surfaces;
    const left = shifts.map((shift) => leftOver(shift, surfaces));
    const reach = TUKEY * Math.max(LEAST_SPREAD, 1.4826 * median(left));
    weights = left.map((length) => (length < reach ? (1 - (length / reach) ** 2) ** 2 : 0));
  }
  return found;
}

const leftOver = ({ u, v, x, y }: Shift, surfaces: { x: Surface; y: Surface }) =>
  Math.hypot(x - heightAt(surfaces.x, u, v), y - heightAt(surfaces.y, u, v));

function weightedFit(
  shifts: readonly Shift[],
  weights: readonly number[],
  terms: number,
  partOf: (shift: Shift) => number,
): Surface | null {
  const matrix = new Array<number>(terms * terms).fill(0);
  const right = new Array<number>(terms).fill(0);
  for (const [index, shift] of shifts.entries()) {
    const powers = powersOf(shift.u, shift.v);
    const weight = weights[index] as number;
    for (let i = 0; i < terms; i++) {
      const weighted = weight * (powers[i] as number);
      right[i] = (right[i] as number) + weighted * partOf(shift);
      for (let j = 0; j < terms; j++) matrix[i * terms + j] = (matrix[i * terms + j] as number) + weighted * (powers[j] as number);
    }
  }
  const found = solve(matrix, right);
  return found && [...found, ...new Array<number>(10 - terms).fill(0)];
}
