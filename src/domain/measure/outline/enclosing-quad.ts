import { areaOf, crossing, isConvex, lineThrough, quadOf } from "../lines.ts";
import type { Point, Quad } from "../picture.ts";

/**
 * The quad that encloses a convex polygon most tightly, found by dropping the edge that adds least area until four
 * are left; a corner may then lie outside the frame. Null when no such quad exists. Corners are named as seen.
 */
export function enclosingQuad(hull: readonly Point[]): Quad | null {
  let polygon = [...hull];
  while (polygon.length > 4) {
    const cheapest = polygon.map((_, index) => withoutEdge(polygon, index)).reduce((best, each) => (each.added < best.added ? each : best));
    if (!Number.isFinite(cheapest.added)) return null;
    polygon = cheapest.polygon;
  }
  return polygon.length === 4 ? named(polygon as [Point, Point, Point, Point]) : null;
}

/** The polygon with the edge after `index` gone and its neighbours drawn out until they meet. */
function withoutEdge(polygon: readonly Point[], index: number): { readonly added: number; readonly polygon: Point[] } {
  const none = { added: Number.POSITIVE_INFINITY, polygon: [] };
  const at = (offset: number) => polygon[(index + offset + polygon.length) % polygon.length] as Point;
  const [before, from, to, after] = [at(-1), at(0), at(1), at(2)];
  const meeting = crossing(lineThrough(before, from), lineThrough(to, after));
  if (!meeting) return none;
  const added = areaOf([from, meeting, to]);
  // The neighbours diverge when they meet on the inner side of the edge.
  if (added < 0) return none;
  return {
    added,
    polygon: polygon
      .map((point, place) => (place === index ? meeting : point))
      .filter((_, place) => place !== (index + 1) % polygon.length),
  };
}

/** Names corners as seen: the top side is the one whose direction is nearest to the frame's. */
function named(corners: readonly [Point, Point, Point, Point]): Quad | null {
  const turns = [0, 1, 2, 3].map((start) => {
    const [a, b, c, d] = [0, 1, 2, 3].map((offset) => corners[(start + offset) % 4] as Point) as [Point, Point, Point, Point];
    return { quad: quadOf([a, b, c, d]), angle: Math.abs(Math.atan2(b.y + c.y - a.y - d.y, b.x + c.x - a.x - d.x)) };
  });
  const { quad } = turns.reduce((best, each) => (each.angle < best.angle ? each : best));
  return isConvex(quad) ? quad : null;
}
