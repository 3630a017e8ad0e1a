import type { Point } from "../picture.ts";

/** A closed line of points: patches run clockwise as seen (y grows downwards), holes in them the other way. */
export type Loop = readonly Point[];

/**
 * The borders of the patches of a mask (1 = in), along the sides of its cells, in cells from the top left of the mask. Filled by
 * the even-odd rule they give the mask again. Patches that touch at a corner only are one or two loops, whichever way is met.
 * Source: border following along cracks, common practice, no source.
 */
export function contoursOf(mask: Uint8Array, columns: number, rows: number): Loop[] {
  const isIn = (x: number, y: number) => x >= 0 && y >= 0 && x < columns && y < rows && mask[y * columns + x] === 1;
  // Each crack between in and out starts at one corner; a corner where two patches touch starts two.
  const ways = new Map<number, number[]>();
  const stride = columns + 1;
  const add = (from: number, to: number) => {
    const starting = ways.get(from);
    if (starting) starting.push(to);
    else ways.set(from, [to]);
  };
  for (let at = mask.indexOf(1); at !== -1; at = mask.indexOf(1, at + 1)) {
    const [x, y] = [at % columns, Math.floor(at / columns)];
    const corner = y * stride + x;
    if (!isIn(x, y - 1)) add(corner, corner + 1);
    if (!isIn(x + 1, y)) add(corner + 1, corner + 1 + stride);
    if (!isIn(x, y + 1)) add(corner + 1 + stride, corner + stride);
    if (!isIn(x - 1, y)) add(corner + stride, corner);
  }
  const loops: Loop[] = [];
  for (const [start, starting] of ways) {
    while (starting.length > 0) loops.push(loopFrom(start, ways, stride));
  }
  return loops;
}

/** Walks from a corner until it comes back, and leaves out corners that lie on a straight way. */
function loopFrom(start: number, ways: Map<number, number[]>, stride: number): Loop {
  const corners = [start];
  for (let at = ways.get(start)?.pop(); at !== undefined && at !== start; at = ways.get(at)?.pop()) corners.push(at);
  const turns = corners.filter((at, index) => {
    const before = corners[(index + corners.length - 1) % corners.length] as number;
    const after = corners[(index + 1) % corners.length] as number;
    return at - before !== after - at;
  });
  return turns.map((at) => ({ x: at % stride, y: Math.floor(at / stride) }));
}
