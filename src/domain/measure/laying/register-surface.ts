import { solve } from "../numbers/least-squares.ts";
import { median } from "../numbers/robust.ts";

/** A smooth function of place, as weights of the powers of u and v; see `powersOf`. */
export type Surface = readonly number[];

/** u, v: -1 to 1 across and down. The first three bend nothing, six bend once, ten hold what a lens bends (barrel). */
export const powersOf = (u: number, v: number): number[] => [1, u, v, u * u, u * v, v * v, u * u * u, u * u * v, u * v * v, v * v * v];

/** The same as powers of u and of v. */
export const POWERS = [
  [0, 0],
  [1, 0],
  [0, 1],
  [2, 0],
  [1, 1],
  [0, 2],
  [3, 0],
  [2, 1],
  [1, 2],
  [0, 3],
] as const;

export const FLAT: Surface = new Array<number>(10).fill(0);

export function heightAt(c: Surface, u: number, v: number): number {
  return (
    (c[0] as number) +
    u * ((c[1] as number) + u * ((c[3] as number) + u * (c[6] as number) + v * (c[7] as number)) + v * (c[4] as number)) +
    v * ((c[2] as number) + v * ((c[5] as number) + u * (c[8] as number) + v * (c[9] as number)))
  );
}

/** The same function along a row, as weights of 1, u, u² and u³: for who asks for many places of one v. */
export function alongRow(c: Surface, v: number): readonly [number, number, number, number] {
  return [
    (c[0] as number) + v * ((c[2] as number) + v * ((c[5] as number) + v * (c[9] as number))),
    (c[1] as number) + v * ((c[4] as number) + v * (c[8] as number)),
    (c[3] as number) + v * (c[7] as number),
    c[6] as number,
  ];
}

export type Shift = { readonly u: number; readonly v: number; readonly x: number; readonly y: number };

const PASSES = 8;
/** Tukey's constant: 95 % efficient for normal errors. */
const TUKEY = 4.685;
const LEAST_SPREAD = 0.01;
/** Tiles overlap by half each way, so that so many of them tell one thing. */
const SHARED = 2;
/** So many shifts fix each term well enough. */
const SHIFTS_PER_TERM = 2.4;

/**
 * Smooth surfaces through shifts, by iterated reweighted least squares with Tukey's weights on the length of what is left
 * over, so that single wrong shifts do not bend them. They bend no more than the shifts show beyond chance, and than their number
 * can fix: a surface that follows noise runs away towards the edges, and farther out. Null below 8.
 * Source of the choice between surfaces: Schwarz 1978, Annals of Statistics 6(2), 461 (from memory).
 */
export function fitShifts(shifts: readonly Shift[]): Surfaces | null {
  const counts = [10, 6, 3].filter((count) => shifts.length >= Math.max(8, SHIFTS_PER_TERM * count));
  const most = counts[0] === undefined ? null : robustFit(shifts, counts[0]);
  if (!most) return null;
  const fits = counts.map((terms) => ({ terms, surfaces: terms === counts[0] ? most.surfaces : fitOf(shifts, most.weights, terms) }));
  const total = most.weights.reduce((sum, weight) => sum + weight, 0);
  const cost = ({ terms, surfaces }: { terms: number; surfaces: Surfaces | null }) => {
    if (!surfaces) return Number.POSITIVE_INFINITY;
    const left = shifts.reduce((sum, shift, at) => sum + (most.weights[at] as number) * leftOver(shift, surfaces) ** 2, 0);
    return (2 * total * Math.log(Math.max(LEAST_SPREAD ** 2, left / total))) / SHARED + 2 * terms * Math.log(total / SHARED);
  };
  return fits.toSorted((a, b) => cost(a) - cost(b))[0]?.surfaces ?? null;
}

type Surfaces = { readonly x: Surface; readonly y: Surface };

function robustFit(shifts: readonly Shift[], terms: number): { surfaces: Surfaces; weights: readonly number[] } | null {
  let weights: readonly number[] = shifts.map(() => 1);
  let found: { surfaces: Surfaces; weights: readonly number[] } | null = null;
  for (let pass = 0; pass < PASSES; pass++) {
    const surfaces = fitOf(shifts, weights, terms);
    if (!surfaces) return found;
    found = { surfaces, weights };
    const left = shifts.map((shift) => leftOver(shift, surfaces));
    const reach = TUKEY * Math.max(LEAST_SPREAD, 1.4826 * median(left));
    weights = left.map((length) => (length < reach ? (1 - (length / reach) ** 2) ** 2 : 0));
  }
  return found;
}

function fitOf(shifts: readonly Shift[], weights: readonly number[], terms: number): Surfaces | null {
  const x = weightedFit(shifts, weights, terms, (shift) => shift.x);
  const y = weightedFit(shifts, weights, terms, (shift) => shift.y);
  return x && y && { x, y };
}

const leftOver = ({ u, v, x, y }: Shift, surfaces: Surfaces) => Math.hypot(x - heightAt(surfaces.x, u, v), y - heightAt(surfaces.y, u, v));

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
