import { solve } from "../numbers/least-squares.ts";
import { median } from "../numbers/robust.ts";
import { FARTHEST, FEWEST_RING_PX, type GroundDistance, type RingSample, sampleRing, VARIANCE_FLOOR } from "./ground.ts";
import type { ReducedCopy } from "./reduced-copy.ts";
import type { Region } from "./region.ts";

/**
 * A ground of one colour whose lightness and hue change smoothly across the region, as uneven light makes them:
 * Mahalanobis distance from a robust second-order surface through the ring. Null where the ring is too short.
 */
export function smoothGroundDistance(copy: ReducedCopy, region: Region): GroundDistance | null {
  const ring = sampleRing(copy, region);
  if (ring.at.length < FEWEST_RING_PX) return null;
  let inliers = nearestToMedian(ring, 0.6);
  let ground = groundOf(copy, ring, inliers);
  for (let pass = 0; pass < 3; pass++) {
    const found = nearGround(copy, ring, ground);
    if (found.reduce((sum, each) => sum + each, 0) < 0.3 * found.length) break;
    inliers = found;
    ground = groundOf(copy, ring, inliers);
  }
  return distanceMap(copy, region, ground);
}

/** Ring pixels within three standard deviations are ground. */
const NEAR_SQUARE = 9;

function nearGround(copy: ReducedCopy, ring: RingSample, { surface, inverse }: Ground): Uint8Array {
  const flat = Float64Array.from(surface.flat());
  const [lightness, a, b, texture] = ring.features as readonly [Float32Array, Float32Array, Float32Array, Float32Array];
  const near = new Uint8Array(ring.at.length);
  for (let index = 0; index < near.length; index++) {
    const at = ring.at[index] as number;
    const u = across(copy, at);
    const v = down(copy, at);
    const square = squareOf(
      inverse,
      (lightness[index] as number) - surfaceAt(flat, 0, u, v),
      (a[index] as number) - surfaceAt(flat, 6, u, v),
      (b[index] as number) - surfaceAt(flat, 12, u, v),
      (texture[index] as number) - surfaceAt(flat, 18, u, v),
    );
    near[index] = square < NEAR_SQUARE ? 1 : 0;
  }
  return near;
}

function distanceMap(copy: ReducedCopy, region: Region, ground: Ground): GroundDistance {
  const map = new Float32Array(region.widthPx * region.heightPx);
  const squares = new Float64Array(region.widthPx);
  for (let row = 0; row < region.heightPx; row++) {
    const [from, to] = region.spans[region.top + row] ?? [];
    if (from === undefined || to === undefined) continue;
    squaresAlong(copy, ground, region.top + row, from, to, squares);
    const first = row * region.widthPx + from - region.left;
    for (let k = 0; k <= to - from; k++) map[first + k] = Math.min(FARTHEST, Math.sqrt(squares[k] as number));
  }
  return map;
}

/** Per feature the coefficients of 1, x, y, x², xy, y² (x, y in -1..1), and the inverse covariance of what is left: of 4 × 4 the ten from the diagonal on, row by row. */
type Ground = { readonly surface: readonly Surface[]; readonly inverse: Inverse };
type Surface = readonly [number, number, number, number, number, number];
type Inverse = readonly [number, number, number, number, number, number, number, number, number, number];

const TEXTURE = 3;

function nearestToMedian(ring: RingSample, share: number): Uint8Array {
  const squares = new Float64Array(ring.at.length);
  ring.features.forEach((feature, k) => {
    const centre = median(feature);
    const variance = median(feature.map((value) => Math.abs(value - centre))) ** 2 + (VARIANCE_FLOOR[k] as number);
    feature.forEach((value, index) => {
      squares[index] = (squares[index] as number) + (value - centre) ** 2 / variance;
    });
  });
  const limit = Float64Array.from(squares).sort()[Math.floor(share * (squares.length - 1))] as number;
  return Uint8Array.from(squares, (square) => (square <= limit ? 1 : 0));
}

function groundOf(copy: ReducedCopy, ring: RingSample, inliers: Uint8Array): Ground {
  const surface = surfaceOf(copy, ring, inliers);
  const covariance = covarianceAbout(surface, copy, ring, inliers);
  VARIANCE_FLOOR.forEach((floor, k) => {
    covariance[k * 5] = (covariance[k * 5] as number) + floor;
  });
  const columns = [0, 1, 2, 3].map((k) =>
    solve(
      covariance,
      [0, 1, 2, 3].map((row) => (row === k ? 1 : 0)),
    ),
  );
  const at = (row: number, column: number) => columns[column]?.[row] ?? 0;
  const inverse = [0, 1, 2, 3].flatMap((row) => [0, 1, 2, 3].slice(row).map((column) => at(row, column))) as unknown as Inverse;
  return { surface, inverse };
}

/** Of the four features about their surfaces, over the inliers; 4 × 4. */
function covarianceAbout(surface: Ground["surface"], copy: ReducedCopy, ring: RingSample, inliers: Uint8Array): number[] {
  const flat = Float64Array.from(surface.flat());
  const [lightness, a, b, texture] = ring.features as readonly [Float32Array, Float32Array, Float32Array, Float32Array];
  let c00 = 0;
  let c01 = 0;
  let c02 = 0;
  let c03 = 0;
  let c11 = 0;
  let c12 = 0;
  let c13 = 0;
  let c22 = 0;
  let c23 = 0;
  let c33 = 0;
  let count = 0;
  for (let index = 0; index < inliers.length; index++) {
    if (!inliers[index]) continue;
    const at = ring.at[index] as number;
    const u = across(copy, at);
    const v = down(copy, at);
    const r0 = (lightness[index] as number) - surfaceAt(flat, 0, u, v);
    const r1 = (a[index] as number) - surfaceAt(flat, 6, u, v);
    const r2 = (b[index] as number) - surfaceAt(flat, 12, u, v);
    const r3 = (texture[index] as number) - surfaceAt(flat, 18, u, v);
    c00 += r0 * r0;
    c01 += r0 * r1;
    c02 += r0 * r2;
    c03 += r0 * r3;
    c11 += r1 * r1;
    c12 += r1 * r2;
    c13 += r1 * r3;
    c22 += r2 * r2;
    c23 += r2 * r3;
    c33 += r3 * r3;
    count++;
  }
  return [c00, c01, c02, c03, c01, c11, c12, c13, c02, c12, c22, c23, c03, c13, c23, c33].map((sum) => sum / count);
}

function surfaceOf(copy: ReducedCopy, ring: RingSample, inliers: Uint8Array): Surface[] {
  // Where the ground shows on fewer than four sides, a curved surface would run away in the middle.
  const isCurved = [0, 1, 2, 3].every((side) => shareOfSide(ring, inliers, side) > 0.4);
  const terms = isCurved ? 6 : 1;
  const [lightness, a, b, texture] = ring.features as readonly [Float32Array, Float32Array, Float32Array, Float32Array];
  const matrix = new Float64Array(36);
  const rights = new Float64Array(24);
  const basis = new Float64Array(6);
  basis[0] = 1;
  for (let index = 0; index < inliers.length; index++) {
    if (!inliers[index]) continue;
    const at = ring.at[index] as number;
    const u = across(copy, at);
    const v = down(copy, at);
    basis[1] = u;
    basis[2] = v;
    basis[3] = u * u;
    basis[4] = u * v;
    basis[5] = v * v;
    for (let row = 0; row < terms; row++) {
      const weight = basis[row] as number;
      for (let column = row; column < terms; column++)
        matrix[row * 6 + column] = (matrix[row * 6 + column] as number) + weight * (basis[column] as number);
      rights[row] = (rights[row] as number) + weight * (lightness[index] as number);
      rights[6 + row] = (rights[6 + row] as number) + weight * (a[index] as number);
      rights[12 + row] = (rights[12 + row] as number) + weight * (b[index] as number);
      rights[18 + row] = (rights[18 + row] as number) + weight * (texture[index] as number);
    }
  }
  const full = Array.from(matrix, (_, entry) => {
    const [row, column] = [Math.floor(entry / 6), entry % 6];
    return matrix[Math.min(row, column) * 6 + Math.max(row, column)] as number;
  });
  return [0, 1, 2, 3].map((k) => {
    const solved = isCurved && k !== TEXTURE ? solve(full, [...rights.subarray(k * 6, k * 6 + 6)]) : null;
    return (solved as Surface | null) ?? [(rights[k * 6] as number) / Math.max(1, matrix[0] as number), 0, 0, 0, 0, 0];
  });
}

function shareOfSide(ring: RingSample, inliers: Uint8Array, side: number): number {
  let count = 0;
  let found = 0;
  for (let index = 0; index < inliers.length; index++) {
    if (ring.side[index] !== side) continue;
    count++;
    found += inliers[index] as number;
  }
  return count === 0 ? 0 : found / count;
}

/** A place of the copy from -1 to 1. */
const across = ({ widthPx }: ReducedCopy, at: number) => (2 * (at % widthPx)) / widthPx - 1;
const down = ({ widthPx, heightPx }: ReducedCopy, at: number) => (2 * Math.floor(at / widthPx)) / heightPx - 1;

/** The surface whose coefficients begin at `first`. */
function surfaceAt(flat: Float64Array, first: number, u: number, v: number): number {
  return (
    (flat[first] as number) +
    ((flat[first + 1] as number) + (flat[first + 3] as number) * u + (flat[first + 4] as number) * v) * u +
    ((flat[first + 2] as number) + (flat[first + 5] as number) * v) * v
  );
}

/**
 * Square distances from the ground of the pixels `from` to `to` of row `y`, written into `into` from its start. Written out, since it runs
 * for every pixel: along a row each surface is a parabola.
 */
function squaresAlong(copy: ReducedCopy, { surface, inverse }: Ground, y: number, from: number, to: number, into: Float64Array): void {
  const { lightness, a, b, texture, widthPx, heightPx } = copy;
  const v = (2 * y) / heightPx - 1;
  const [l0, l1, l2] = parabolaOf(surface, 0, v);
  const [a0, a1, a2] = parabolaOf(surface, 1, v);
  const [b0, b1, b2] = parabolaOf(surface, 2, v);
  const [t0, t1, t2] = parabolaOf(surface, 3, v);
  for (let x = from, at = y * widthPx + from; x <= to; x++, at++) {
    const u = (2 * x) / widthPx - 1;
    into[x - from] = squareOf(
      inverse,
      (lightness[at] as number) - l0 - (l1 + l2 * u) * u,
      (a[at] as number) - a0 - (a1 + a2 * u) * u,
      (b[at] as number) - b0 - (b1 + b2 * u) * u,
      (texture[at] as number) - t0 - (t1 + t2 * u) * u,
    );
  }
}

/** Square length of four differences on the scale of a covariance of which `w` is the inverse; not below 0. */
function squareOf(w: Inverse, r0: number, r1: number, r2: number, r3: number): number {
  const square =
    r0 * (w[0] * r0 + 2 * (w[1] * r1 + w[2] * r2 + w[3] * r3)) +
    r1 * (w[4] * r1 + 2 * (w[5] * r2 + w[6] * r3)) +
    r2 * (w[7] * r2 + 2 * w[8] * r3) +
    w[9] * r3 * r3;
  return Math.max(0, square);
}

/** The surface of a feature along the row at `v`: coefficients of 1, u, u². */
function parabolaOf(surface: Ground["surface"], feature: number, v: number): readonly [number, number, number] {
  const [s0, s1, s2, s3, s4, s5] = surface[feature] as Surface;
  return [s0 + (s2 + s5 * v) * v, s1 + s4 * v, s3];
}
