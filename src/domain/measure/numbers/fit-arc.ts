import { type FittedLine, fitLine, observedTogether, sumOfSquares, TUKEY } from "./fit-line.ts";
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
    const near = residualsWithin(1.5 * tolerance, s, t, parts, length);
    if (near.length < 8) return straight(line, 0, Number.POSITIVE_INFINITY);
    reach = TUKEY * Math.max(0.05, robustSpread(near, 0));
  }
  const agreeing = residualsWithin(tolerance, s, t, parts, length);
  const n = agreeing.length;
  if (n < 8 || !inverse) return straight(line, 0, Number.POSITIVE_INFINITY);
  const residual = Math.sqrt(sumOfSquares(agreeing) / n);
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

/** Of the points nearer to the arc than `reach`: how far each is from it. */
function residualsWithin(
  reach: number,
  s: readonly number[],
  t: readonly number[],
  parts: readonly [number, number, number],
  length: number,
): Float64Array {
  const kept = new Float64Array(s.length);
  let count = 0;
  for (let index = 0; index < s.length; index++) {
    const residual = (t[index] as number) - at(parts, s[index] as number, length);
    if (Math.abs(residual) < reach) kept[count++] = residual;
  }
  return kept.subarray(0, count);
}

function weighted(
  s: readonly number[],
  t: readonly number[],
  length: number,
  before: readonly [number, number, number],
  reach: number,
): { readonly parts: readonly [number, number, number]; readonly inverse: readonly number[] } | null {
  let m00 = 0;
  let m01 = 0;
  let m02 = 0;
  let m11 = 0;
  let m12 = 0;
  let m22 = 0;
  let r0 = 0;
  let r1 = 0;
  let r2 = 0;
  for (let index = 0; index < s.length; index++) {
    const value = t[index] as number;
    const share = (value - at(before, s[index] as number, length)) / reach;
    if (Math.abs(share) >= 1) continue;
    const weight = (1 - share * share) ** 2;
    const u = (s[index] as number) / length;
    const bow = 4 * u * (1 - u);
    m00 += weight;
    m01 += weight * u;
    m02 += weight * bow;
    m11 += weight * u * u;
    m12 += weight * u * bow;
    m22 += weight * bow * bow;
    r0 += weight * value;
    r1 += weight * u * value;
    r2 += weight * bow * value;
  }
  const matrix = [m00, m01, m02, m01, m11, m12, m02, m12, m22];
  const right = [r0, r1, r2];
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
