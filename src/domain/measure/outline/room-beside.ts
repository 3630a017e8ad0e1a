import { distanceTo, endsOf, isInside, linesOf, SIDES, type Side } from "../lines.ts";
import type { Point, Quad } from "../picture.ts";
import type { Beside } from "./search.ts";

/** Points so many along each side of a neighbour are looked at. */
const POINTS = 24;

function rimOf(quad: Quad): Point[] {
  return SIDES.flatMap((side) => {
    const [from, to] = endsOf(quad, side);
    return Array.from({ length: POINTS }, (_, index) => ({
      x: from.x + ((to.x - from.x) * index) / POINTS,
      y: from.y + ((to.y - from.y) * index) / POINTS,
    }));
  });
}

/**
 * How far, px, the border of a print can reach beyond a side of its picture before it meets another print that lies abreast of it on the
 * bed; infinite where none does. Where of that one too the picture alone is seen, both borders share the room.
 */
export function roomBeside(quad: Quad, side: Side, others: readonly Beside[]): number {
  const lines = linesOf(quad);
  const [before, after] = side === "top" || side === "bottom" ? [lines.left, lines.right] : [lines.top, lines.bottom];
  const rooms = others.flatMap((other) => {
    const abreast = rimOf(other.quad).filter(
      (point) => distanceTo(lines[side], point) < 0 && distanceTo(before, point) > 0 && distanceTo(after, point) > 0,
    );
    return abreast.map((point) => -distanceTo(lines[side], point) / (other.isPictureAlone ? 2 : 1));
  });
  return Math.min(...rooms);
}

/** Whether a quad reaches into others, or to within `nearPx` of them. */
export function meetsOthers(quad: Quad, nearPx: number, others: readonly Quad[]): boolean {
  const lines = linesOf(quad);
  return others.some(
    (other) =>
      rimOf(other).some((point) => SIDES.every((side) => distanceTo(lines[side], point) > -nearPx)) || isInside(other, quad.topLeft),
  );
}
