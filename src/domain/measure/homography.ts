import type { Point, Quad } from "./picture.ts";

/** A plane-to-plane projective map, 3 × 3, row by row, last entry 1. */
export type Homography = readonly [number, number, number, number, number, number, number, number, number];

/**
 * Maps a rectangle of the print (mm, origin at its top left, y downwards) onto a quad in the frame (px).
 * Closed form for the unit square (Heckbert, "Fundamentals of Texture Mapping and Image Warping",
 * 1989, section 2.2.3; from memory), scaled to the rectangle. The quad must be convex.
 */
export function homographyFromMm(widthMm: number, heightMm: number, quad: Quad): Homography {
  const { topLeft: p0, topRight: p1, bottomRight: p2, bottomLeft: p3 } = quad;
  const dx1 = p1.x - p2.x;
  const dx2 = p3.x - p2.x;
  const dx3 = p0.x - p1.x + p2.x - p3.x;
  const dy1 = p1.y - p2.y;
  const dy2 = p3.y - p2.y;
  const dy3 = p0.y - p1.y + p2.y - p3.y;
  const determinant = dx1 * dy2 - dx2 * dy1;
  const g = (dx3 * dy2 - dx2 * dy3) / determinant;
  const h = (dx1 * dy3 - dx3 * dy1) / determinant;
  return [
    (p1.x - p0.x + g * p1.x) / widthMm,
    (p3.x - p0.x + h * p3.x) / heightMm,
    p0.x,
    (p1.y - p0.y + g * p1.y) / widthMm,
    (p3.y - p0.y + h * p3.y) / heightMm,
    p0.y,
    g / widthMm,
    h / heightMm,
    1,
  ];
}

/** Where a point of the first plane falls in the second. */
export function project(map: Homography, x: number, y: number): Point {
  const w = map[6] * x + map[7] * y + map[8];
  return { x: (map[0] * x + map[1] * y + map[2]) / w, y: (map[3] * x + map[4] * y + map[5]) / w };
}

/** How many units of the second plane one unit along x and along y covers at a point (columns of the Jacobian). */
export function scaleAt(map: Homography, x: number, y: number): { readonly alongX: number; readonly alongY: number } {
  const w = map[6] * x + map[7] * y + map[8];
  const at = project(map, x, y);
  return {
    alongX: Math.hypot((map[0] - map[6] * at.x) / w, (map[3] - map[6] * at.y) / w),
    alongY: Math.hypot((map[1] - map[7] * at.x) / w, (map[4] - map[7] * at.y) / w),
  };
}

/** The map back. Throws RangeError when the map is degenerate. */
export function inverse(map: Homography): Homography {
  const [a, b, c, d, e, f, g, h, i] = map;
  const determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  if (Math.abs(determinant) < 1e-300) throw new RangeError("a degenerate map has no inverse");
  const scale = a * e - b * d;
  return [
    (e * i - f * h) / scale,
    (c * h - b * i) / scale,
    (b * f - c * e) / scale,
    (f * g - d * i) / scale,
    (a * i - c * g) / scale,
    (c * d - a * f) / scale,
    (d * h - e * g) / scale,
    (b * g - a * h) / scale,
    1,
  ];
}
