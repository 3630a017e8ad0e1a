import type { Point } from "../picture.ts";
import { reshaped } from "./reshaped.ts";

/** A connected patch of a mask. */
export type Component = {
  /** convex hull along the outer pixel boundaries, clockwise as seen */
  readonly hull: readonly Point[];
  /** px, with whatever lies between the outermost pixels of each row */
  readonly filledPx: number;
};

/**
 * Patches of `mask` (1 = in) of whose filled size is `leastPx` or more, after small gaps are closed and bridges narrower than twice `openPx`
 * are cut. `left` and `top` place the mask's box in the copy; hulls are in the copy's px.
 */
export function componentsOf(mask: Uint8Array, box: Box, openPx: number, leastPx: number, closePx = CLOSE_PX): Component[] {
  const { widthPx, heightPx } = box;
  const clean = reshaped(mask, widthPx, heightPx, [closePx, -closePx, -openPx, openPx]);
  return patchesOf(runsOf(clean, widthPx, heightPx)).flatMap((patch) => {
    const rows = filledRows(patch, heightPx);
    return rows.filledPx < leastPx ? [] : [{ hull: hullOf(boundaryOf(rows, box)), filledPx: rows.filledPx }];
  });
}

type Box = { readonly left: number; readonly top: number; readonly widthPx: number; readonly heightPx: number };

const CLOSE_PX = 2;
const SPECK_PX = 60;

/** Pixels beside each other in one row, both ends included. */
type Run = { readonly row: number; readonly from: number; readonly to: number };

function runsOf(mask: Uint8Array, widthPx: number, heightPx: number): Run[] {
  const runs: Run[] = [];
  for (let row = 0; row < heightPx; row++) {
    const start = row * widthPx;
    const end = start + widthPx;
    for (let at = start; at < end; at++) {
      if (mask[at] === 0) continue;
      const from = at;
      while (at + 1 < end && mask[at + 1] !== 0) at++;
      runs.push({ row, from: from - start, to: at - start });
    }
  }
  return runs;
}

/** Runs that hang together across rows, one patch after the other in the order of their first runs; specks are left out. */
function patchesOf(runs: readonly Run[]): (readonly Run[])[] {
  // Each run names an earlier one of its patch, the first names itself.
  const earlier = Int32Array.from(runs.keys());
  let above = 0;
  for (let index = 0; index < runs.length; index++) {
    const run = runs[index] as Run;
    while (isBefore(runs[above] as Run, run)) above++;
    for (let at = above; (runs[at] as Run).row === run.row - 1 && (runs[at] as Run).from <= run.to; at++) {
      const one = firstOf(earlier, index);
      const other = firstOf(earlier, at);
      earlier[Math.max(one, other)] = Math.min(one, other);
    }
  }
  const patches = new Map<number, Run[]>();
  for (let index = 0; index < runs.length; index++) {
    const patch = patches.get(firstOf(earlier, index));
    if (patch) patch.push(runs[index] as Run);
    else patches.set(index, [runs[index] as Run]);
  }
  return [...patches.values()].filter((patch) => patch.reduce((sum, { from, to }) => sum + to - from + 1, 0) >= SPECK_PX);
}

/** Ends in the row above before the other begins, or in a row above that. */
const isBefore = (run: Run, other: Run) => run.row < other.row - 1 || (run.row === other.row - 1 && run.to < other.from);

function firstOf(earlier: Int32Array, index: number): number {
  let at = index;
  while (earlier[at] !== at) at = earlier[at] = earlier[earlier[at] as number] as number;
  return at;
}

/** First and last column of a patch in each row; the last before the first where it has none. */
type FilledRows = { readonly first: Int32Array; readonly last: Int32Array; readonly filledPx: number };

function filledRows(patch: readonly Run[], heightPx: number): FilledRows {
  const first = new Int32Array(heightPx);
  const last = new Int32Array(heightPx).fill(-1);
  for (const { row, from, to } of patch) {
    if ((last[row] as number) < 0) first[row] = from;
    last[row] = to;
  }
  let filledPx = 0;
  for (let row = 0; row < heightPx; row++) filledPx += (last[row] as number) < 0 ? 0 : (last[row] as number) - (first[row] as number) + 1;
  return { first, last, filledPx };
}

function boundaryOf({ first, last }: FilledRows, box: Box): Point[] {
  const points: Point[] = [];
  for (let y = 0; y < first.length; y++) {
    const left = first[y] as number;
    const right = last[y] as number;
    if (right < left) continue;
    for (const x of [box.left + left - 0.5, box.left + right + 0.5]) {
      points.push({ x, y: box.top + y - 0.5 }, { x, y: box.top + y + 0.5 });
    }
  }
  return points;
}

/** Convex hull by Andrew's monotone chain, clockwise as seen (y grows downwards). */
export function hullOf(points: readonly Point[]): Point[] {
  const sorted = [...points].sort(byPlace);
  return [...halfHull(sorted), ...halfHull([...sorted].reverse())];
}

const byPlace = (p: Point, q: Point) => p.x - q.x || p.y - q.y;

function halfHull(ordered: readonly Point[]): Point[] {
  const chain: Point[] = [];
  for (const point of ordered) {
    while (chain.length >= 2 && turn(chain[chain.length - 2] as Point, chain[chain.length - 1] as Point, point) <= 0) chain.pop();
    chain.push(point);
  }
  return chain.slice(0, -1);
}

const turn = (a: Point, b: Point, c: Point) => (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
