import { type FittedLine, fitLine, observedTogether, TUKEY } from "./fit-line.ts";
import { solve } from "./least-squares.ts";
import { robustSpread } from "./robust.ts";

/** A line, or a shallow arc: t = offset + slope · s + bow · 4 u (1 - u) with u = s / length. */
export type FittedArc = FittedLine & {
  /** sag in the middle of the length against the chord of both ends; 0 where it is not sure, and a line was fitted */
  readonly bow: number;
  /** the sag as it was read, sure or not, and its one-sigma uncertainty */
  readonly sag: number;
  readonly sagSpread: number;
};

/** A side bowed by more than this share of its length is none. */
const MOST_BOW = 0.02;
/** Bows of less than this many px, or so many times their own uncertainty, are taken for straight. */
const LEAST_BOW_PX = 0.15;
const SURE = 5;

/** The straight line of `fitLine`, and the arc that bows from it where lens or curl bent the side. Null below eight points. */
export function fitArc(s: readonly number[], t: readonly number[], tolerance: number, length: number): FittedArc | null {
  const line = fitLine(s, t, tolerance);
  if (!line) return null;
  let parts: readonly [number, number, number] = [line.offset, line.slope, 0];
  let inverse: readonly number[] | null = null;
  let reach = 3 * tolerance;
  for (let pass = 0; pass < 6; pass++) {
    const fitted = weighted(s, t, length, parts, reach);
    if (!fitted) return straight(line, 0, Number.POSITIVE_INFINITY);
    ({ parts, inverse } = fitted);
    const near = s.map((x, index) => (t[index] as number) - at(parts, x, length)).filter((each) => Math.abs(each) < 1.5 * tolerance);
    if (near.length < 8) return straight(line, 0, Number.POSITIVE_INFINITY);
    reach = TUKEY * Math.max(0.05, robustSpread(near, 0));
  }
  const agreeing = s.map((x, index) => (t[index] as number) - at(parts, x, length)).filter((each) => Math.abs(each) < tolerance);
  const n = agreeing.length;
  if (n < 8 || !inverse) return straight(line, 0, Number.POSITIVE_INFINITY);
  const residual = Math.sqrt(agreeing.reduce((sum, each) => sum + each * each, 0) / n);
  const together = observedTogether(agreeing);
  const spreadOf = (basis: readonly [number, number, number]) => residual * Math.sqrt(together * quadratic(inverse as number[], basis));
  const sag = parts[2];
  const sagSpread = spreadOf([0, 0, 1]);
  const isBowed = Math.abs(sag) > Math.max(LEAST_BOW_PX, SURE * sagSpread) && Math.abs(sag) < MOST_BOW * length && n >= line.agreeing;
  if (!isBowed) return straight(line, Math.abs(sag) < MOST_BOW * length ? sag : 0, sagSpread);
  return {
    offset: parts[0],
    slope: parts[1],
    bow: sag,
    sag,
    sagSpread,
    agreeing: n,
    residual,
    spreadAt: (x) => spreadOf(basisAt(x, length)),
  };
}

/** A sag too small to be sure of still tells how far the ends of the line may be off: by two thirds of it. */
const straight = (line: FittedLine, sag: number, sagSpread: number): FittedArc => ({
  ...line,
  bow: 0,
  sag,
  sagSpread,
  spreadAt: (s) => Math.hypot(line.spreadAt(s), Number.isFinite(sagSpread) ? (2 * sag) / 3 : 0),
});

/** s in units of the length, so that the sums stay well conditioned. */
const basisAt = (s: number, length: number): readonly [number, number, number] => {
  const u = s / length;
  return [1, u, 4 * u * (1 - u)];
};

const at = (parts: readonly [number, number, number], s: number, length: number) => {
  const u = s / length;
  return parts[0] + parts[1] * s + parts[2] * 4 * u * (1 - u);
};

function weighted(
  s: readonly number[],
  t: readonly number[],
  length: number,
  before: readonly [number, number, number],
  reach: number,
): { readonly parts: readonly [number, number, number]; readonly inverse: readonly number[] } | null {
  const matrix = new Array<number>(9).fill(0);
  const right = [0, 0, 0];
  for (let index = 0; index < s.length; index++) {
    const residual = (t[index] as number) - at(before, s[index] as number, length);
    if (Math.abs(residual) >= reach) continue;
    const weight = (1 - (residual / reach) ** 2) ** 2;
    const basis = basisAt(s[index] as number, length);
    for (let row = 0; row < 3; row++) {
      right[row] = (right[row] as number) + weight * (basis[row] as number) * (t[index] as number);
      for (let column = 0; column < 3; column++)
        matrix[row * 3 + column] = (matrix[row * 3 + column] as number) + weight * (basis[row] as number) * (basis[column] as number);
    }
  }
  const solved = solve(matrix, right);
  const columns = [0, 1, 2].map((k) =>
    solve(
      matrix,
      [0, 1, 2].map((row) => (row === k ? 1 : 0)),
    ),
  );
  if (!solved || columns.includes(null)) return null;
  const inverse = Array.from({ length: 9 }, (_, entry) => columns[entry % 3]?.[Math.floor(entry / 3)] as number);
  return { parts: [solved[0] as number, (solved[1] as number) / length, solved[2] as number], inverse };
}

function quadratic(matrix: readonly number[], basis: readonly [number, number, number]): number {
  let sum = 0;
  for (let entry = 0; entry < 9; entry++)
    sum += (matrix[entry] as number) * (basis[Math.floor(entry / 3)] as number) * (basis[entry % 3] as number);
  return Math.max(0, sum);
}
