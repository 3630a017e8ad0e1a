import type { Point } from "./picture.ts";

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
  let clean = spread(mask, widthPx, heightPx, CLOSE_PX, 1);
  clean = spread(clean, widthPx, heightPx, CLOSE_PX, 0);
  clean = spread(clean, widthPx, heightPx, openPx, 0);
  clean = spread(clean, widthPx, heightPx, openPx, 1);
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

/** Grows (`value` 1) or shrinks (`value` 0) a mask by `reachPx` in both directions. What lies beyond the frame changes nothing. */
function spread(mask: Uint8Array, widthPx: number, heightPx: number, reachPx: number, value: 0 | 1): Uint8Array {
  const other = 1 - value;
  const across = new Uint8Array(mask.length);
  for (let start = 0; start < mask.length; start += widthPx) {
    let since = reachPx + 1;
    for (let at = start; at < start + widthPx; at++) {
      since = mask[at] === value ? 0 : since + 1;
      across[at] = since <= reachPx ? value : other;
    }
    since = reachPx + 1;
    for (let at = start + widthPx - 1; at >= start; at--) {
      since = mask[at] === value ? 0 : since + 1;
      if (since <= reachPx) across[at] = value;
    }
  }
  // Row by row downwards and upwards too, with a count for each column, so that memory is walked in order.
  const down = new Uint8Array(mask.length);
  const since = new Int32Array(widthPx).fill(reachPx + 1);
  for (let y = 0, at = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++, at++) {
      const count = across[at] === value ? 0 : (since[x] as number) + 1;
      since[x] = count;
      down[at] = count <= reachPx ? value : other;
    }
  }
  since.fill(reachPx + 1);
  for (let y = heightPx - 1; y >= 0; y--) {
    for (let x = 0, at = y * widthPx; x < widthPx; x++, at++) {
      const count = across[at] === value ? 0 : (since[x] as number) + 1;
      since[x] = count;
      if (count <= reachPx) down[at] = value;
    }
  }
  return down;
}

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
  const push = (at: number) => {
    if (mask[at] !== 1) return;
    mask[at] = 2;
    stack[depth++] = at;
  };
  push(start);
  while (depth > 0) {
    const at = stack[--depth] as number;
    const y = Math.floor(at / widthPx);
    const x = at - y * widthPx;
    count++;
    if (x < (first[y] as number)) first[y] = x;
    if (x > (last[y] as number)) last[y] = x;
    if (x > 0) push(at - 1);
    if (x < widthPx - 1) push(at + 1);
    if (y > 0) push(at - widthPx);
    if (y < heightPx - 1) push(at + widthPx);
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
function hullOf(points: readonly Point[]): Point[] {
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
