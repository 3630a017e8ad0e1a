import { distanceTo, endsOf, lengthOf, linesOf, SIDES, type Side, type SideLines } from "../lines.ts";
import type { Point } from "../picture.ts";
import type { MeasureContext, Outline } from "../reading.ts";
import { sizeAsSeen } from "../size-as-seen.ts";

/** The plain border of a print, between the edge of its sheet and the edge of its picture. */
export type Border = {
  readonly sheet: SideLines;
  readonly image: SideLines;
  /** sides whose border is seen and wide enough to be read */
  readonly sides: readonly Side[];
  /** px kept away from both edges: their blur, rounded corners and unsure places */
  readonly guardPx: number;
};

const GUARD_MM = 0.8;
const LEAST_WIDTH_MM = 2;
/** Where nobody knows the size, the shorter side is taken to be this long: most small prints are near it. */
const ASSUMED_SHORT_SIDE_MM = 88;

/** Null when no border was told apart or none is at least 2 mm wide; guards as in common practice, no source. */
export function borderOf(outline: Outline, context: MeasureContext): Border | null {
  if (!outline.image) return null;
  const pxPerMm = meanPxPerMm(outline, context);
  const guardPx = Math.max(GUARD_MM * pxPerMm, 2 + 2 * outline.cornerSpreadPx);
  const sheet = linesOf(outline.sheet);
  const image = outline.image;
  const sides = SIDES.filter((side) => {
    const [from, to] = endsOf(image, side);
    const widthPx = Math.min(distanceTo(sheet[side], from), distanceTo(sheet[side], to));
    return outline.sides[side] !== "cut-off" && widthPx >= LEAST_WIDTH_MM * pxPerMm && widthPx >= 2 * guardPx + 2;
  });
  return sides.length === 0 ? null : { sheet, image: linesOf(image), sides, guardPx };
}

/** The side of the border a place lies on, the guard kept; null elsewhere. */
export function borderSideAt({ sheet, image, sides, guardPx }: Border, place: Point): Side | null {
  // written out, since it is asked for every patch of the sheet
  if (distanceTo(sheet.top, place) < guardPx || distanceTo(sheet.right, place) < guardPx) return null;
  if (distanceTo(sheet.bottom, place) < guardPx || distanceTo(sheet.left, place) < guardPx) return null;
  const top = -distanceTo(image.top, place);
  const right = -distanceTo(image.right, place);
  const bottom = -distanceTo(image.bottom, place);
  const left = -distanceTo(image.left, place);
  const outside = Math.max(top, right, bottom, left);
  if (!(outside >= guardPx)) return null;
  const outermost = top === outside ? "top" : right === outside ? "right" : bottom === outside ? "bottom" : "left";
  return sides.includes(outermost) ? outermost : null;
}

export function meanPxPerMm(outline: Outline, context: MeasureContext): number {
  const size = sizeAsSeen(outline.sheet, outline.image, context).sheet;
  const acrossPx = (lengthOf(outline.sheet, "top") + lengthOf(outline.sheet, "bottom")) / 2;
  const downPx = (lengthOf(outline.sheet, "left") + lengthOf(outline.sheet, "right")) / 2;
  return size ? (acrossPx / size.widthMm + downPx / size.heightMm) / 2 : Math.min(acrossPx, downPx) / ASSUMED_SHORT_SIDE_MM;
}
