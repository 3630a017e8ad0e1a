import { cornersOf, distanceTo, endsOf, lineThrough, SIDES, type Side } from "./lines.ts";
import type { Point } from "./picture.ts";
import type { Outline } from "./reading.ts";

type Sheet = Pick<Outline, "sheet" | "image">;

/** A border this much wider than each of the others is the one that an instant print stands on. */
const WIDER = 1.4;

/**
 * The corners of the sheet, clockwise from the print's own top left, in px of the upright frame. A print with one border
 * clearly wider than the others has it below (integral instant prints; common practice, no source). Any other print is
 * taken to be upright as it is seen.
 */
export function ownCorners(outline: Sheet): readonly [Point, Point, Point, Point] {
  const corners = cornersOf(outline.sheet);
  const below = widestBorder(outline);
  if (below === null) return corners;
  const first = (SIDES.indexOf(below) + 2) % 4;
  const at = (index: number) => corners[(first + index) % 4] as Point;
  return [at(0), at(1), at(2), at(3)];
}

function widestBorder({ sheet, image }: Sheet): Side | null {
  if (!image) return null;
  const widths = SIDES.map((side) => {
    const line = lineThrough(...endsOf(sheet, side));
    const [from, to] = endsOf(image, side);
    return { side, width: (distanceTo(line, from) + distanceTo(line, to)) / 2 };
  }).sort((a, b) => b.width - a.width);
  const [widest, next] = widths;
  return widest && next && widest.width > WIDER * Math.max(0, next.width) ? widest.side : null;
}
