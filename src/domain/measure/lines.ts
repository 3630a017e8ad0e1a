import type { Point, Quad } from "./picture.ts";

export const SIDES = ["top", "right", "bottom", "left"] as const;
export type Side = (typeof SIDES)[number];

export const eachSide = <T>(of: (side: Side) => T): Record<Side, T> => ({
  top: of("top"),
  right: of("right"),
  bottom: of("bottom"),
  left: of("left"),
});

/** A directed line: nx·x + ny·y + d is the distance of a point, positive on the inner side of the outline. */
export type Line = { readonly nx: number; readonly ny: number; readonly d: number };

/** Whether a side of an upright print runs up and down. */
export const isUpright = (side: Side): boolean => side === "left" || side === "right";

export const opposite = (side: Side): Side => SIDES[(SIDES.indexOf(side) + 2) % 4] as Side;

/** Top left first, then clockwise: corner i starts side i. */
export const cornersOf = (quad: Quad): readonly [Point, Point, Point, Point] => [
  quad.topLeft,
  quad.topRight,
  quad.bottomRight,
  quad.bottomLeft,
];

export const quadOf = (corners: readonly [Point, Point, Point, Point]): Quad => ({
  topLeft: corners[0],
  topRight: corners[1],
  bottomRight: corners[2],
  bottomLeft: corners[3],
});

export const eachCorner = (quad: Quad, of: (corner: Point) => Point): Quad => ({
  topLeft: of(quad.topLeft),
  topRight: of(quad.topRight),
  bottomRight: of(quad.bottomRight),
  bottomLeft: of(quad.bottomLeft),
});

/** Corners renamed as they lie once the capture is turned by quarters, clockwise. */
export function turnedQuad(quad: Quad, quarters: number): Quad {
  const corners = cornersOf(quad);
  return quadOf([0, 1, 2, 3].map((index) => corners[(index - quarters + 4) % 4]) as [Point, Point, Point, Point]);
}

/** Both ends of a side, clockwise. */
export function endsOf(quad: Quad, side: Side): readonly [Point, Point] {
  const corners = cornersOf(quad);
  const index = SIDES.indexOf(side);
  return [corners[index] as Point, corners[(index + 1) % 4] as Point];
}

/** The line through two points of an outline walked clockwise, so that its inside lies to the right of the walk. */
export function lineThrough(from: Point, to: Point): Line {
  const length = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const nx = (from.y - to.y) / length;
  const ny = (to.x - from.x) / length;
  return { nx, ny, d: -(nx * from.x + ny * from.y) };
}

export const distanceTo = (line: Line, point: Point): number => line.nx * point.x + line.ny * point.y + line.d;

/** Where two lines cross; null when they are parallel. */
export function crossing(a: Line, b: Line): Point | null {
  const determinant = a.nx * b.ny - a.ny * b.nx;
  if (Math.abs(determinant) < 1e-9) return null;
  return { x: (a.ny * b.d - b.ny * a.d) / determinant, y: (b.nx * a.d - a.nx * b.d) / determinant };
}

export type SideLines = Readonly<Record<Side, Line>>;

export function linesOf(quad: Quad): SideLines {
  const line = (side: Side) => lineThrough(...endsOf(quad, side));
  return { top: line("top"), right: line("right"), bottom: line("bottom"), left: line("left") };
}

/** The quad that four lines enclose; null when they do not enclose a convex one. */
export function quadOfLines({ top, right, bottom, left }: SideLines): Quad | null {
  const corners = [crossing(left, top), crossing(top, right), crossing(right, bottom), crossing(bottom, left)];
  if (corners.includes(null)) return null;
  const quad = quadOf(corners as [Point, Point, Point, Point]);
  return isConvex(quad) ? quad : null;
}

/** Convex and walked clockwise as seen (y grows downwards). */
export function isConvex(quad: Quad): boolean {
  const corners = cornersOf(quad);
  return corners.every((corner, index) => {
    const next = corners[(index + 1) % 4] as Point;
    const after = corners[(index + 2) % 4] as Point;
    return (next.x - corner.x) * (after.y - next.y) - (next.y - corner.y) * (after.x - next.x) > 0;
  });
}

/** Area of a polygon in square px; positive when walked clockwise as seen. */
export function areaOf(points: readonly Point[]): number {
  return (
    points.reduce((sum, point, index) => {
      const next = points[(index + 1) % points.length] as Point;
      return sum + point.x * next.y - next.x * point.y;
    }, 0) / 2
  );
}

export const isInside = (quad: Quad, point: Point): boolean =>
  SIDES.every((side) => distanceTo(lineThrough(...endsOf(quad, side)), point) >= 0);

export const centreOf = (quad: Quad): Point => ({
  x: cornersOf(quad).reduce((sum, corner) => sum + corner.x, 0) / 4,
  y: cornersOf(quad).reduce((sum, corner) => sum + corner.y, 0) / 4,
});

export const lengthOf = (quad: Quad, side: Side): number => {
  const [from, to] = endsOf(quad, side);
  return Math.hypot(to.x - from.x, to.y - from.y);
};

/** Mean width over mean height. */
export const aspectOf = (quad: Quad): number =>
  (lengthOf(quad, "top") + lengthOf(quad, "bottom")) / (lengthOf(quad, "left") + lengthOf(quad, "right"));

/** Width and height of the upright rectangle round a quad, px. */
export function boxOfQuad(quad: Quad): { readonly widthPx: number; readonly heightPx: number } {
  const [xs, ys] = [cornersOf(quad).map(({ x }) => x), cornersOf(quad).map(({ y }) => y)];
  return { widthPx: Math.max(...xs) - Math.min(...xs), heightPx: Math.max(...ys) - Math.min(...ys) };
}
