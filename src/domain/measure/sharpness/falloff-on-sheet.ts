import { homographyFromMm, inverse, project } from "../homography.ts";
import type { Place } from "../laying/fine-source.ts";
import type { Fine, Laid } from "../laying/lay-finely.ts";
import { termsAt } from "../numbers/smooth-surface.ts";
import type { Quad } from "../picture.ts";
import { LEAST_VARIANCE_SHARE } from "./movement.ts";

/** How the sheet, as the capture's own frame shows it, lies in the planes: both from -1 to 1 along each side, straight between. */
export type Lie = {
  /** sheet = (a u + b v + c, d u + e v + f) */
  readonly map: readonly [number, number, number, number, number, number];
  /** half the planes' sides, mm */
  readonly halfMm: readonly [number, number];
};

/** By three places of the plane; where the sheet is not known, the picture stands for it. */
export function lieOf({ fine, grid }: Laid): Lie {
  const { plane, pxPerMm, placeOf } = fine as Fine;
  const back = inverse(homographyFromMm(1, 1, (grid.blur?.sheet ?? grid.quad) as Quad));
  const into: Place = { x: 0, y: 0 };
  const at = (u: number, v: number) => {
    placeOf(((u + 1) / 2) * plane.width - 0.5, ((v + 1) / 2) * plane.height - 0.5, into);
    const { x, y } = project(back, into.x, into.y);
    return { x: 2 * x - 1, y: 2 * y - 1 };
  };
  const [left, right, top, bottom] = [at(-0.8, 0), at(0.8, 0), at(0, -0.8), at(0, 0.8)];
  const [a, d] = [(right.x - left.x) / 1.6, (right.y - left.y) / 1.6];
  const [b, e] = [(bottom.x - top.x) / 1.6, (bottom.y - top.y) / 1.6];
  const [c, f] = [(left.x + right.x + top.x + bottom.x) / 4, (left.y + right.y + top.y + bottom.y) / 4];
  return { map: [a, b, c, d, e, f], halfMm: [plane.width / pxPerMm / 2, plane.height / pxPerMm / 2] };
}

export const sheetPlace = ({ map: [a, b, c, d, e, f] }: Lie, u: number, v: number) => ({ u: a * u + b * v + c, v: d * u + e * v + f });

/** A surface over the planes, at a place of the sheet. */
export function surfaceAt(terms: readonly number[], { map: [a, b, c, d, e, f] }: Lie, across: number, down: number): number {
  const determinant = a * e - b * d;
  const [x, y] = [across - c, down - f];
  return valueAt(terms, (e * x - b * y) / determinant, (a * y - d * x) / determinant);
}

const valueAt = (terms: readonly number[], u: number, v: number) => termsAt(u, v).reduce((sum, of, at) => sum + of * (terms[at] ?? 0), 0);

/** As focus.ts defines it, of a surface over the planes: along its slope at the middle of the sheet, from rim to rim of the sheet. */
export function falloffOf(terms: readonly number[], { map: [a, b, c, d, e, f], halfMm: [halfWidth, halfHeight] }: Lie) {
  const determinant = a * e - b * d;
  const [u0, v0] = [(b * f - e * c) / determinant, (d * c - a * f) / determinant];
  const [, tu = 0, tv = 0, tuv = 0, tuu = 0, tvv = 0] = terms;
  const slope = { x: (tu + tuv * v0 + 2 * tuu * u0) / halfWidth, y: (tv + tuv * u0 + 2 * tvv * v0) / halfHeight };
  const length = Math.hypot(slope.x, slope.y);
  if (length === 0) return { share: 0, degrees: 0 };
  const [du, dv] = [slope.x / length / halfWidth, slope.y / length / halfHeight];
  const [across, down] = [a * du + b * dv, d * du + e * dv];
  const reach = 1 / Math.max(Math.abs(across), Math.abs(down));
  const varianceAt = (by: number) => valueAt(terms, u0 + by * du, v0 + by * dv);
  const [sharp, soft] = [varianceAt(-reach), varianceAt(reach)];
  const share = soft > 0 ? 1 - Math.sqrt(Math.min(1, Math.max(LEAST_VARIANCE_SHARE, sharp / soft))) : 0;
  const ofSheet = { x: across / Math.hypot(a / halfWidth, b / halfHeight), y: down / Math.hypot(d / halfWidth, e / halfHeight) };
  return { share, degrees: (180 / Math.PI) * Math.atan2(ofSheet.y, ofSheet.x) };
}
