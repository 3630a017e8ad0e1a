import { homographyFromMm, inverse, project } from "../homography.ts";
import { endsOf, linesOf, quadOfLines, SIDES, type Side } from "../lines.ts";
import type { Picture, Point, Quad } from "../picture.ts";
import { type EdgeFit, findEdge } from "./edge-line.ts";
import type { RefinedQuad } from "./outline-refine.ts";
import { linearProfiles } from "./samplers.ts";

/** A sheet cut by hand may be out of square with its picture by half a degree; more is suspect. */
const SUSPECT_SLOPE = 0.012;
const SQUARE_SLOPE = 0.007;
/** Where else to look: borders wider and narrower by so much of the picture. */
const SHIFTS = [-0.04, -0.03, -0.02, -0.01, 0, 0.01, 0.02, 0.03, 0.04] as const;
const LEAST_SHARE = 0.6;

/**
 * Looks again for sides of the sheet that are out of square with its picture: on a patterned ground a line of the
 * pattern may run so near the sheet's side that it was taken for it. A side for which no squarer edge shows stays.
 */
export function squareUp(picture: Picture, sheet: RefinedQuad, image: Quad): RefinedQuad {
  const toPx = homographyFromMm(1, 1, image);
  const toImage = inverse(toPx);
  const suspects = SIDES.filter(
    (side) => sheet.edges[side] && slopeOf(sheet.quad, side, (point) => project(toImage, point.x, point.y)) > SUSPECT_SLOPE,
  );
  if (suspects.length === 0) return sheet;
  const lines = { ...linesOf(sheet.quad) };
  const edges = { ...sheet.edges };
  for (const side of suspects) {
    const middle = middleOf(endsOf(sheet.quad, side));
    const squarer = SHIFTS.flatMap((shift) => {
      const at = project(toImage, middle.x, middle.y);
      const [from, to] = squareSide(side, at, shift).map(({ x, y }) => project(toPx, x, y)) as [Point, Point];
      const edge = findSquareEdge(picture, from, to);
      return edge &&
        slopeOf(quadOfLines({ ...lines, [side]: edge.line }) ?? sheet.quad, side, (point) => project(toImage, point.x, point.y)) <
          SQUARE_SLOPE
        ? [edge]
        : [];
    });
    const best = squarer.reduce<EdgeFit | null>((found, each) => (found && found.share >= each.share ? found : each), null);
    if (!best || isClearer(sheet.edges[side], best)) continue;
    edges[side] = best;
    lines[side] = best.line;
  }
  const quad = quadOfLines(lines);
  return quad ? { quad, edges } : sheet;
}

/** A side that steps so much more, and is seen along about as much of its length, is no line of the ground: what was taken for its picture lies askew. Own. */
const MUCH_MORE = 1.5;

const isClearer = (side: EdgeFit | null, squarer: EdgeFit) =>
  side !== null && side.share > squarer.share - 0.05 && side.step > MUCH_MORE * squarer.step;

function findSquareEdge(picture: Picture, from: Point, to: Point): EdgeFit | null {
  const reachPx = Math.max(5, 0.006 * Math.hypot(to.x - from.x, to.y - from.y));
  const rough = findEdge(linearProfiles(picture), from, to, { reachPx, lagPx: 2, profiles: 160, leastStep: 0.012, tolerancePx: 1.5 });
  return rough && rough.share >= LEAST_SHARE ? rough : null;
}

/** Slope against the picture's own axis, on the plane of the print. */
function slopeOf(quad: Quad, side: Side, onPrint: (point: Point) => Point): number {
  const [from, to] = endsOf(quad, side).map(onPrint) as [Point, Point];
  const [dx, dy] = [Math.abs(to.x - from.x), Math.abs(to.y - from.y)];
  return side === "top" || side === "bottom" ? dy / dx : dx / dy;
}

/** Both ends, clockwise and in units of the picture, of a side parallel to the picture's, `shift` farther out than `at`. */
function squareSide(side: Side, at: Point, shift: number): readonly [Point, Point] {
  const ends: Record<Side, readonly [Point, Point]> = {
    top: [
      { x: 0, y: at.y - shift },
      { x: 1, y: at.y - shift },
    ],
    right: [
      { x: at.x + shift, y: 0 },
      { x: at.x + shift, y: 1 },
    ],
    bottom: [
      { x: 1, y: at.y + shift },
      { x: 0, y: at.y + shift },
    ],
    left: [
      { x: at.x - shift, y: 1 },
      { x: at.x - shift, y: 0 },
    ],
  };
  return ends[side];
}

const middleOf = ([from, to]: readonly [Point, Point]): Point => ({ x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 });
