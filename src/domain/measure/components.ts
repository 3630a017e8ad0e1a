import type { Point } from "./picture.ts";
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
export function componentsOf(mask: Uint8Array, box: Box, openPx: number, leastPx: number): Component[] {
  const { widthPx, heightPx } = box;
  const clean = reshaped(mask, widthPx, heightPx, [CLOSE_PX, -CLOSE_PX, -openPx, openPx]);
  const found: Component[] = [];
  const stack = new Int32Array(widthPx * heightPx);
  const first = new Int32Array(heightPx);
  const last = new Int32Array(heightPx);
  for (let start = 0; start < clean.length; start++) {
    if (clean[start] !== 1) continue;
    first.fill(widthPx);
    last.fill(-1);
    const count = flood(clean, widthPx, heightPx, start, stack, first, last);
    if (count < SPECK_PX) continue;
    const component = componentFrom(first, last, box);
    if (component.filledPx >= leastPx) found.push(component);
  }
  return found;
}

type Box = { readonly left: number; readonly top: number; readonly widthPx: number; readonly heightPx: number };

const CLOSE_PX = 2;
const SPECK_PX = 60;

/** Takes a patch out of the mask, noting the first and last column of each row. Answers its size. */
function flood(
  mask: Uint8Array,
  widthPx: number,
  heightPx: number,
  start: number,
  stack: Int32Array,
  first: Int32Array,
  last: Int32Array,
): number {
  let depth = 0;
  let count = 0;
  mask[start] = 2;
  stack[depth++] = start;
  while (depth > 0) {
    const at = stack[--depth] as number;
    const y = Math.floor(at / widthPx);
    const x = at - y * widthPx;
    count++;
    if (x < (first[y] as number)) first[y] = x;
    if (x > (last[y] as number)) last[y] = x;
    if (x > 0 && mask[at - 1] === 1) {
      mask[at - 1] = 2;
      stack[depth++] = at - 1;
    }
    if (x < widthPx - 1 && mask[at + 1] === 1) {
      mask[at + 1] = 2;
      stack[depth++] = at + 1;
    }
    if (y > 0 && mask[at - widthPx] === 1) {
      mask[at - widthPx] = 2;
      stack[depth++] = at - widthPx;
    }
    if (y < heightPx - 1 && mask[at + widthPx] === 1) {
      mask[at + widthPx] = 2;
      stack[depth++] = at + widthPx;
    }
  }
  return count;
}

function componentFrom(first: Int32Array, last: Int32Array, box: Box): Component {
  const points: Point[] = [];
  let filledPx = 0;
  first.forEach((left, y) => {
    const right = last[y] as number;
    if (right < left) return;
    filledPx += right - left + 1;
    for (const x of [box.left + left - 0.5, box.left + right + 0.5]) {
      points.push({ x, y: box.top + y - 0.5 }, { x, y: box.top + y + 0.5 });
    }
  });
  return { hull: hullOf(points), filledPx };
}

/** Convex hull by Andrew's monotone chain, clockwise as seen (y grows downwards). */
export function hullOf(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((p, q) => p.x - q.x || p.y - q.y);
  const half = (ordered: readonly Point[]) => {
    const chain: Point[] = [];
    for (const point of ordered) {
      while (chain.length >= 2 && turn(chain[chain.length - 2] as Point, chain[chain.length - 1] as Point, point) <= 0) chain.pop();
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half([...sorted].reverse())];
}

const turn = (a: Point, b: Point, c: Point) => (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
