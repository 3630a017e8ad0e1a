import { FARTHEST, FEWEST_RING_PX, type GroundDistance, type RingSample, sampleRing, VARIANCE_FLOOR } from "./ground.ts";
import { solve } from "./least-squares.ts";
import type { ReducedCopy } from "./reduced-copy.ts";
import type { Region } from "./region.ts";
import { median } from "./robust.ts";

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
    const square = squareDistance(copy, ground);
    const found = Uint8Array.from(ring.at, (at) => (square(at, at % copy.widthPx, Math.floor(at / copy.widthPx)) < NEAR_SQUARE ? 1 : 0));
    if (found.reduce((sum, each) => sum + each, 0) < 0.3 * found.length) break;
    inliers = found;
    ground = groundOf(copy, ring, inliers);
  }
  return distanceMap(copy, region, ground);
}

/** Ring pixels within three standard deviations are ground. */
const NEAR_SQUARE = 9;

function distanceMap(copy: ReducedCopy, region: Region, ground: Ground): GroundDistance {
  const map = new Float32Array(region.inside.length);
  const squareAt = squareDistance(copy, ground);
  for (let row = 0, place = 0; row < region.heightPx; row++) {
    const y = region.top + row;
    for (let x = region.left; x < region.left + region.widthPx; x++, place++) {
      if (region.inside[place]) map[place] = Math.min(FARTHEST, Math.sqrt(squareAt(y * copy.widthPx + x, x, y)));
    }
  }
  return map;
}

/** Per feature the coefficients of 1, x, y, x², xy, y² (x, y in -1..1), and the inverse covariance of what is left, 4 × 4. */
type Ground = { readonly surface: readonly (readonly number[])[]; readonly inverse: readonly number[] };

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
  const covariance = new Array<number>(16).fill(0);
  const residual = new Float64Array(4);
  const count = inliers.reduce((sum, each) => sum + each, 0);
  for (let index = 0; index < ring.at.length; index++) {
    if (!inliers[index]) continue;
    const at = ring.at[index] as number;
    const basis = basisAt(copy, at % copy.widthPx, Math.floor(at / copy.widthPx));
    for (let k = 0; k < 4; k++) residual[k] = (ring.features[k]?.[index] as number) - dot(surface[k] as number[], basis);
    for (let entry = 0; entry < 16; entry++)
      covariance[entry] = (covariance[entry] as number) + ((residual[entry >> 2] as number) * (residual[entry & 3] as number)) / count;
  }
  VARIANCE_FLOOR.forEach((floor, k) => {
    covariance[k * 5] = (covariance[k * 5] as number) + floor;
  });
  const columns = [0, 1, 2, 3].map((k) =>
    solve(
      covariance,
      [0, 1, 2, 3].map((row) => (row === k ? 1 : 0)),
    ),
  );
  const inverse = Array.from({ length: 16 }, (_, entry) => columns[entry & 3]?.[entry >> 2] ?? 0);
  return { surface, inverse };
}

function surfaceOf(copy: ReducedCopy, ring: RingSample, inliers: Uint8Array): number[][] {
  // Where the ground shows on fewer than four sides, a curved surface would run away in the middle.
  const terms = [0, 1, 2, 3].every((side) => shareOfSide(ring, inliers, side) > 0.4) ? 6 : 1;
  const matrix = new Array<number>(terms * terms).fill(0);
  const rights = ring.features.map(() => new Array<number>(terms).fill(0));
  ring.at.forEach((at, index) => {
    if (!inliers[index]) return;
    const basis = basisAt(copy, at % copy.widthPx, Math.floor(at / copy.widthPx));
    for (let row = 0; row < terms; row++) {
      const weight = basis[row] as number;
      for (let column = 0; column < terms; column++) {
        matrix[row * terms + column] = (matrix[row * terms + column] as number) + weight * (basis[column] as number);
      }
      ring.features.forEach((feature, k) => {
        const right = rights[k] as number[];
        right[row] = (right[row] as number) + weight * (feature[index] as number);
      });
    }
  });
  return rights.map((right, k) => {
    const solved = terms === 6 && k !== TEXTURE ? solve(matrix, right) : null;
    return solved ?? [(right[0] as number) / Math.max(1, matrix[0] as number), 0, 0, 0, 0, 0];
  });
}

function shareOfSide(ring: RingSample, inliers: Uint8Array, side: number): number {
  let count = 0;
  let found = 0;
  ring.side.forEach((each, index) => {
    if (each !== side) return;
    count++;
    found += inliers[index] as number;
  });
  return count === 0 ? 0 : found / count;
}

function basisAt(copy: ReducedCopy, x: number, y: number): readonly [number, number, number, number, number, number] {
  const u = (2 * x) / copy.widthPx - 1;
  const v = (2 * y) / copy.heightPx - 1;
  return [1, u, v, u * u, u * v, v * v];
}

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let index = 0; index < a.length; index++) sum += (a[index] as number) * (b[index] as number);
  return sum;
}

/** Written out, since it runs for every pixel. */
function squareDistance(copy: ReducedCopy, { surface, inverse }: Ground): (at: number, x: number, y: number) => number {
  const { lightness, a, b, texture, widthPx, heightPx } = copy;
  const flat = Float64Array.from(surface.flat());
  const [w00, w01, w02, w03, , w11, w12, w13, , , w22, w23, , , , w33] = inverse as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const surfaceAt = (c: number, u: number, v: number) =>
    (flat[c] as number) +
    ((flat[c + 1] as number) + (flat[c + 3] as number) * u + (flat[c + 4] as number) * v) * u +
    ((flat[c + 2] as number) + (flat[c + 5] as number) * v) * v;
  return (at, x, y) => {
    const u = (2 * x) / widthPx - 1;
    const v = (2 * y) / heightPx - 1;
    const r0 = (lightness[at] as number) - surfaceAt(0, u, v);
    const r1 = (a[at] as number) - surfaceAt(6, u, v);
    const r2 = (b[at] as number) - surfaceAt(12, u, v);
    const r3 = (texture[at] as number) - surfaceAt(18, u, v);
    const square =
      r0 * (w00 * r0 + 2 * (w01 * r1 + w02 * r2 + w03 * r3)) +
      r1 * (w11 * r1 + 2 * (w12 * r2 + w13 * r3)) +
      r2 * (w22 * r2 + 2 * w23 * r3) +
      w33 * r3 * r3;
    return Math.max(0, square);
  };
}
