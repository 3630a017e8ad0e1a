import { homographyFromMm, inverse, project } from "../homography.ts";
import { eachSide, endsOf, opposite, type Side } from "../lines.ts";
import type { Point, Quad } from "../picture.ts";
import type { MeasureContext, Outline } from "../reading.ts";
import { sizeAsSeen } from "../size-as-seen.ts";
import type { RefinedQuad } from "./outline-refine.ts";

/** The outline with some sides that were seen told as assumed, and its corners that much less sure: the edge there need not be the sheet's. */
export function doubting(outline: Outline, sides: readonly Side[], offPx: number): Outline {
  return {
    ...outline,
    cornerSpreadPx: Math.hypot(outline.cornerSpreadPx, offPx),
    sides: eachSide((side) => (sides.includes(side) ? "assumed" : outline.sides[side])),
    ...(sides.length > 0 && { doubted: [...(outline.doubted ?? []), ...sides] }),
  };
}

/** Why nothing is read from a side as an edge; null where it is seen. */
export const whyNoEdge = ({ sides, doubted }: Pick<Outline, "sides" | "doubted">, side: Side): string | null => {
  if (sides[side] === "seen") return null;
  if (sides[side] === "cut-off") return "cut off by the frame";
  return doubted?.includes(side) ? "seen, but its edge may be something else's" : "not seen as an edge";
};

/** A faint side wanders this much about its line where it is none, px. */
const MOST_RESIDUAL_PX = 2.5;
/** Cut sheets are out of square with their picture by up to half a degree. */
const MOST_SLOPE = 0.008;
/** Where a size comes without a tolerance, mm. */
const TOLERANCE_MM = 1;

/**
 * Which of the faint sides may be something else, such as the outer end of a shadow: they wander, are out of square with
 * the picture, or make the sheet larger or smaller than it is by the scale of its picture.
 */
export function doubtedSides(
  { quad, edges }: RefinedQuad,
  image: Quad | null,
  faint: ReadonlySet<Side>,
  context: MeasureContext,
): ReadonlySet<Side> {
  const doubted = new Set([...faint].filter((side) => (edges[side]?.residualPx ?? 0) > MOST_RESIDUAL_PX));
  if (!image || faint.size === 0) return doubted;
  const size = sizeAsSeen(quad, image, context);
  const unit = size.image ?? { widthMm: 1, heightMm: 1 };
  const toMm = inverse(homographyFromMm(unit.widthMm, unit.heightMm, image));
  const onPrint = (side: Side) => endsOf(quad, side).map(({ x, y }) => project(toMm, x, y)) as [Point, Point];
  for (const side of faint) {
    const [from, to] = onPrint(side);
    const [dx, dy] = [Math.abs(to.x - from.x), Math.abs(to.y - from.y)];
    const slope = isLevel(side) ? dy / dx : dx / dy;
    const stretch = size.image ? 1 : isLevel(side) ? ratioOf(image) : 1 / ratioOf(image);
    if (slope * stretch > MOST_SLOPE) doubted.add(side);
  }
  if (!size.sheet || !size.image) return doubted;
  const toleranceMm = context.sheetToleranceMm ?? TOLERANCE_MM;
  for (const side of ["top", "left"] as const) {
    const acrossMm = Math.abs(middle(onPrint(opposite(side)), side) - middle(onPrint(side), side));
    if (Math.abs(acrossMm - (isLevel(side) ? size.sheet.heightMm : size.sheet.widthMm)) <= toleranceMm) continue;
    for (const each of [side, opposite(side)]) if (faint.has(each)) doubted.add(each);
  }
  return doubted;
}

const isLevel = (side: Side) => side === "top" || side === "bottom";
const middle = ([from, to]: readonly [Point, Point], side: Side) => (isLevel(side) ? from.y + to.y : from.x + to.x) / 2;

/** Height over width of the quad, for units that are its own width and height. */
function ratioOf(quad: Quad): number {
  const [width, height] = (["top", "left"] as const).map((side) => {
    const [from, to] = endsOf(quad, side);
    return Math.hypot(to.x - from.x, to.y - from.y);
  }) as [number, number];
  return height / width;
}
