import { solve } from "../numbers/least-squares.ts";
import { median } from "../numbers/robust.ts";
import { type GridPlane, onceForEachSize, resized, valueAt } from "../planes/grid-plane.ts";
import { correlation, detailPlane } from "./detail-plane.ts";
import { alongRow, FLAT, heightAt, POWERS, type Surface } from "./register-surface.ts";

/** How one plane lies on another of the same size. */
export type Alignment = {
  /** the other plane's values at the places of the first; NaN where it has none */
  readonly warped: (plane: GridPlane) => GridPlane;
  /** how far to go from a place of the first to the same place of the other; all in shares of the plane's size, 0 to 1 */
  readonly shiftAt: (x: number, y: number) => { readonly x: number; readonly y: number };
  /** both detail planes as they lie on each other */
  readonly detail: { readonly fixed: GridPlane; readonly moved: GridPlane };
  /** median shift still found in single tiles, px; looked for when it is called */
  readonly residualPx: () => number;
  /** correlation of detail after alignment */
  readonly correlation: number;
};

export type Effort = {
  readonly levels: readonly { readonly scale: number; readonly terms: number; readonly passes: number }[];
  /** a level is done once a step is shorter */
  readonly settledPx: number;
};

/** From coarse, where even a shift of some px is small, to fine, where the surface may bend. */
export const THOROUGHLY: Effort = {
  levels: [
    { scale: 4, terms: 3, passes: 12 },
    { scale: 2, terms: 3, passes: 8 },
    { scale: 1, terms: 10, passes: 8 },
  ],
  settledPx: 0.005,
};
const SMALLEST_PX = 24;
const TILES = 6;
const FEWEST_TILES = 8;
const FEWEST_QUADRANTS = 3;
/** How far a tile is looked for. */
const REACH_PX = 5;
/** A tile with detail that agrees with the other plane less than this at every shift does not show the same. */
const LEAST_TILE_LIKENESS = 0.3;
/** Mean squared slope of the detail plane (whose own spread is 1) below which a tile is plain. */
const LEAST_DETAIL = 0.005;
/** Keeps the weights of equal planes finite. */
const LEAST_DIFFERENCE = 1e-3;

/**
 * Lays `other` on `reference` (linear luminance, same size) by a third-order surface of shifts, found by iterated
 * reweighted least squares on their detail planes from coarse to fine (B. D. Lucas, T. Kanade, "An Iterative Image
 * Registration Technique", 1981). Null when there is too little detail to do so.
 */
export function alignPlanes(reference: GridPlane, other: GridPlane, { levels, settledPx }: Effort = THOROUGHLY): Alignment | null {
  let shiftX = FLAT;
  let shiftY = FLAT;
  let fine: { fixed: GridPlane; moving: GridPlane } | null = null;
  for (const { scale, terms, passes } of levels) {
    const width = Math.round(reference.width / scale);
    const height = Math.round(reference.height / scale);
    if (Math.min(width, height) < SMALLEST_PX) continue;
    const fixed = fixedAt(reference, width, height);
    const moving = detailPlane(scale === 1 ? other : resized(other, width, height));
    // shifts are kept in shares of the plane's size, so that they hold on every level
    for (let pass = 0; pass < passes; pass++) {
      const step = oneStep(fixed, moving, shiftX, shiftY, terms);
      if (!step) return null;
      shiftX = shiftX.map((value, index) => value + (step.x[index] ?? 0) / width);
      shiftY = shiftY.map((value, index) => value + (step.y[index] ?? 0) / height);
      if (Math.max(...step.x.map(Math.abs), ...step.y.map(Math.abs)) < settledPx) break;
    }
    fine = { fixed, moving };
  }
  if (!fine) return null;
  const warped = (plane: GridPlane) => warp(plane, shiftX, shiftY);
  const moved = warped(fine.moving);
  const { fixed } = fine;
  const tiles = tilesWithDetail(fixed);
  if (tiles.length < FEWEST_TILES || new Set(tiles.map((tile) => tile.quadrant)).size < FEWEST_QUADRANTS) return null;
  const { width, height } = reference;
  const along = (share: number, length: number) => (2 * (share * length - 0.5)) / (length - 1) - 1;
  const shiftAt = (x: number, y: number) => {
    const [u, v] = [along(x, width), along(y, height)];
    return { x: heightAt(shiftX, u, v), y: heightAt(shiftY, u, v) };
  };
  return {
    warped,
    shiftAt,
    detail: { fixed, moved },
    residualPx: () => median(tiles.map(({ box }) => shiftOf(fixed, moved, box))),
    correlation: correlation(fixed.data, moved.data),
  };
}

/** Detail of what others are laid on: several are, one after the other. */
const fixedAt = onceForEachSize((reference, width, height) =>
  detailPlane(width === reference.width && height === reference.height ? reference : resized(reference, width, height)),
);

function warp(plane: GridPlane, shiftX: Surface, shiftY: Surface): GridPlane {
  const { width, height } = plane;
  const data = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    const v = (2 * y) / (height - 1) - 1;
    const [x0, x1, x2, x3] = alongRow(shiftX, v);
    const [y0, y1, y2, y3] = alongRow(shiftY, v);
    for (let x = 0; x < width; x++) {
      const u = (2 * x) / (width - 1) - 1;
      const toX = x0 + u * (x1 + u * (x2 + u * x3));
      const toY = y0 + u * (y1 + u * (y2 + u * y3));
      data[y * width + x] = valueAt(plane, x + toX * width, y + toY * height);
    }
  }
  return { width, height, data };
}

/** One Gauss-Newton step for the shifts, px; null when the detail does not fix them. */
function oneStep(
  fixed: GridPlane,
  moving: GridPlane,
  shiftX: Surface,
  shiftY: Surface,
  terms: number,
): { x: number[]; y: number[] } | null {
  const { width, height } = fixed;
  const moved = warp(moving, shiftX, shiftY).data;
  const scale = Math.max(LEAST_DIFFERENCE, 1.5 * median(sampledDifferences(fixed.data, moved)));
  const n = 2 * terms;
  const matrix = new Float64Array(n * n);
  const right = new Float64Array(n);
  const stride = width * height > 40_000 ? 2 : 1;
  // along a row only u changes: sums of its powers are enough, and the row's v comes to them at its end
  const degree = terms > 3 ? 3 : 1;
  const xx = new Float64Array(2 * degree + 1);
  const xy = new Float64Array(2 * degree + 1);
  const yy = new Float64Array(2 * degree + 1);
  const rightX = new Float64Array(degree + 1);
  const rightY = new Float64Array(degree + 1);
  for (let y = 1; y < height - 1; y += stride) {
    const v = (2 * y) / (height - 1) - 1;
    for (const sums of [xx, xy, yy, rightX, rightY]) sums.fill(0);
    for (let x = 1; x < width - 1; x += stride) {
      const at = y * width + x;
      const difference = (fixed.data[at] as number) - (moved[at] as number);
      const slopeX = ((moved[at + 1] as number) - (moved[at - 1] as number)) / 2;
      const slopeY = ((moved[at + width] as number) - (moved[at - width] as number)) / 2;
      if (Number.isNaN(difference + slopeX + slopeY)) continue;
      // places that differ for another reason (glare, dust) count little
      const share = difference / scale;
      const weight = 1 / (1 + share * share);
      const u = (2 * x) / (width - 1) - 1;
      let weightedX = weight * slopeX;
      let weightedY = weight * slopeY;
      for (let k = 0; k <= 2 * degree; k++) {
        xx[k] = (xx[k] as number) + weightedX * slopeX;
        xy[k] = (xy[k] as number) + weightedX * slopeY;
        yy[k] = (yy[k] as number) + weightedY * slopeY;
        if (k <= degree) {
          rightX[k] = (rightX[k] as number) + weightedX * difference;
          rightY[k] = (rightY[k] as number) + weightedY * difference;
        }
        weightedX *= u;
        weightedY *= u;
      }
    }
    for (let i = 0; i < terms; i++) {
      const [ofU, ofV] = POWERS[i] as (typeof POWERS)[number];
      const toV = v ** ofV;
      right[i] = (right[i] as number) + toV * (rightX[ofU] as number);
      right[terms + i] = (right[terms + i] as number) + toV * (rightY[ofU] as number);
      for (let j = 0; j < terms; j++) {
        const [alsoOfU, alsoOfV] = POWERS[j] as (typeof POWERS)[number];
        const to = v ** (ofV + alsoOfV);
        const k = ofU + alsoOfU;
        const across = (terms + i) * n + terms + j;
        matrix[i * n + j] = (matrix[i * n + j] as number) + to * (xx[k] as number);
        matrix[i * n + terms + j] = (matrix[i * n + terms + j] as number) + to * (xy[k] as number);
        matrix[across] = (matrix[across] as number) + to * (yy[k] as number);
      }
    }
  }
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) matrix[i * n + j] = matrix[j * n + i] as number;
  const step = solve([...matrix], [...right]);
  return step && { x: step.slice(0, terms), y: step.slice(terms) };
}

function sampledDifferences(one: Float32Array, other: Float32Array): number[] {
  const differences: number[] = [];
  for (let at = 0; at < one.length; at += 7) {
    const difference = Math.abs((one[at] as number) - (other[at] as number));
    if (!Number.isNaN(difference)) differences.push(difference);
  }
  return differences.length > 0 ? differences : [1];
}

/** Tiles that have detail in both directions. */
function tilesWithDetail(fixed: GridPlane): { box: Box; quadrant: number }[] {
  const { width, height } = fixed;
  const tiles: { box: Box; quadrant: number }[] = [];
  for (let tile = 0; tile < TILES * TILES; tile++) {
    const column = tile % TILES;
    const line = Math.floor(tile / TILES);
    const box = {
      left: Math.max(REACH_PX, Math.floor((column * width) / TILES)),
      right: Math.min(width - REACH_PX, Math.floor(((column + 1) * width) / TILES)),
      top: Math.max(REACH_PX, Math.floor((line * height) / TILES)),
      bottom: Math.min(height - REACH_PX, Math.floor(((line + 1) * height) / TILES)),
    };
    if (!hasDetail(fixed, box)) continue;
    tiles.push({ box, quadrant: (column < TILES / 2 ? 0 : 1) + (line < TILES / 2 ? 0 : 2) });
  }
  return tiles;
}

type Box = { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };

/** Slopes in both directions: the smaller eigenvalue of their mean products. */
function hasDetail({ width, data }: GridPlane, box: Box): boolean {
  let xx = 0;
  let xy = 0;
  let yy = 0;
  let count = 0;
  for (let y = box.top; y < box.bottom; y++) {
    for (let x = box.left; x < box.right; x++) {
      const at = y * width + x;
      const slopeX = ((data[at + 1] as number) - (data[at - 1] as number)) / 2;
      const slopeY = ((data[at + width] as number) - (data[at - width] as number)) / 2;
      xx += slopeX * slopeX;
      xy += slopeX * slopeY;
      yy += slopeY * slopeY;
      count++;
    }
  }
  return count > 0 && (xx + yy - Math.sqrt((xx - yy) ** 2 + 4 * xy * xy)) / 2 / count >= LEAST_DETAIL;
}

/** Length of the shift at which a tile agrees best, to a fraction of a pixel by a parabola through the peak; the search's reach where nothing agrees. */
function shiftOf(fixed: GridPlane, moved: GridPlane, box: Box): number {
  const likeness = new Map<string, number>();
  const at = (dx: number, dy: number) => {
    const key = `${dx} ${dy}`;
    const known = likeness.get(key) ?? likenessAt(fixed, moved, box, dx, dy);
    likeness.set(key, known);
    return known;
  };
  let best = { dx: 0, dy: 0, value: at(0, 0) };
  for (let dy = -REACH_PX; dy <= REACH_PX; dy++) {
    for (let dx = -REACH_PX; dx <= REACH_PX; dx++) if (at(dx, dy) > best.value) best = { dx, dy, value: at(dx, dy) };
  }
  const { dx, dy, value } = best;
  if (value < LEAST_TILE_LIKENESS || Math.max(Math.abs(dx), Math.abs(dy)) === REACH_PX) return REACH_PX;
  const fraction = (before: number, after: number) => (before - after) / (2 * (before - 2 * value + after) || 1);
  return Math.hypot(dx + fraction(at(dx - 1, dy), at(dx + 1, dy)), dy + fraction(at(dx, dy - 1), at(dx, dy + 1)));
}

/** Correlation of a tile with the other plane at a shift. */
function likenessAt(fixed: GridPlane, moved: GridPlane, box: Box, dx: number, dy: number): number {
  const { width } = fixed;
  let product = 0;
  let squaresFixed = 0;
  let squaresMoved = 0;
  for (let y = box.top; y < box.bottom; y++) {
    for (let x = box.left; x < box.right; x++) {
      const a = fixed.data[y * width + x] as number;
      const b = moved.data[(y + dy) * width + x + dx] as number;
      if (Number.isNaN(b)) continue;
      product += a * b;
      squaresFixed += a * a;
      squaresMoved += b * b;
    }
  }
  return product / Math.sqrt(Math.max(1e-12, squaresFixed * squaresMoved));
}
