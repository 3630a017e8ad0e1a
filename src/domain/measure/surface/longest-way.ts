/** Ways from pixel to pixel are longer than the line they follow (Kulpa 1977, from memory). */
export const CHAIN = 0.948;

/** The longest way through a connected patch of pixels, bends followed: both its ends, and its length as steps from pixel to pixel. */
export function longestWay(pixels: readonly number[], width: number): { from: number; to: number; lengthPx: number } {
  const from = farthest(pixels, width, pixels[0] as number).at;
  const { at: to, lengthPx } = farthest(pixels, width, from);
  return { from, to, lengthPx };
}

/** The pixel of a patch that is the longest way off, and how long the way is. */
function farthest(pixels: readonly number[], width: number, from: number): { at: number; lengthPx: number } {
  const ways = new Map(pixels.map((at) => [at, Number.POSITIVE_INFINITY]));
  ways.set(from, 0);
  const queue = [from];
  let best = { at: from, lengthPx: 0 };
  for (let next = 0; next < queue.length; next++) {
    const at = queue[next] as number;
    const way = ways.get(at) as number;
    if (way > best.lengthPx) best = { at, lengthPx: way };
    const x = at % width;
    for (let j = -1; j <= 1; j++) {
      for (let i = -1; i <= 1; i++) {
        if (x + i < 0 || x + i >= width) continue;
        const neighbour = at + j * width + i;
        const known = ways.get(neighbour);
        if (known !== Number.POSITIVE_INFINITY) continue;
        ways.set(neighbour, way + Math.hypot(i, j));
        queue.push(neighbour);
      }
    }
  }
  return best;
}
