import { fillsFrame, isFrameSide } from "../frame.ts";
import { homographyFromMm, scaleAt } from "../homography.ts";
import { endsOf, SIDES, type Side } from "../lines.ts";
import { evenlyWithin } from "../numbers/standard-uncertainty.ts";
import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { type SizeMm, sizeAsSeen } from "../size-as-seen.ts";
import { NO_SIZE } from "./print-scale.ts";
import { NOT_FOUND } from "./sides-seen.ts";

/**
 * The narrowest strip of ground between the sheet and the frame, in mm of the print; 0 where the frame cuts the sheet.
 * Detail: each side's own, at the corner that comes nearest to the frame.
 *
 * Formula: distance of a corner from the frame's side, in px, over the px per mm of the print at that corner.
 * Needs: the size of the sheet in mm, unless the frame cuts it. Source: Metamorfoze 2.0 asks for 3 to 5 mm all round
 * (second-hand).
 */
export function margin(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  if (!outline) return [{ name: "marginMm", absent: NOT_FOUND }];
  const { sheet } = sizeAsSeen(outline.sheet, outline.image, context);
  const isCut = (side: Side) => outline.sides[side] === "cut-off" || isFrameSide(outline.sheet, side, picture);
  const size = sheet && !SIDES.some(isCut) ? sheet : null;
  if (!size && !SIDES.some(isCut)) return [{ name: "marginMm", absent: NO_SIZE }];
  const margins = SIDES.map((side) => (size ? marginBeside(picture, outline, size, side) : isCut(side) ? 0 : null));
  const [top, right, bottom, left] = margins;
  const value = Math.max(0, Math.min(...margins.filter((each) => each !== null && each !== undefined)));
  const hasAssumed = SIDES.some((side) => outline.sides[side] === "assumed");
  return [
    {
      name: "marginMm",
      value,
      ...(size && { spread: spreadOf(value, outline, size, context) }),
      reliability: hasAssumed ? "fair" : "firm",
      ...(fillsFrame(outline, picture) && {
        note: "The file is cropped to the print, so no ground is left beside it: nothing shows that all of the print is there.",
      }),
      detail: { topMm: top, rightMm: right, bottomMm: bottom, leftMm: left },
    },
  ];
}

/** Negative where a corner of the sheet lies outside the frame. */
function marginBeside({ widthPx, heightPx }: Picture, { sheet }: Outline, size: SizeMm, side: Side): number {
  const toPx = homographyFromMm(size.widthMm, size.heightMm, sheet);
  const isAcross = side === "top" || side === "bottom";
  const ends = endsOf(sheet, side).map((end, index) => {
    const beyondPx = { top: end.y + 0.5, right: widthPx - 0.5 - end.x, bottom: heightPx - 0.5 - end.y, left: end.x + 0.5 }[side];
    const [x, y] = cornerMm(side, index, size);
    const { alongX, alongY } = scaleAt(toPx, x, y);
    return beyondPx / (isAcross ? alongY : alongX);
  });
  return Math.min(...ends);
}

/** Start (0) or end (1) of a side walked clockwise, in mm of the sheet. */
function cornerMm(side: Side, end: number, { widthMm, heightMm }: SizeMm): readonly [number, number] {
  const corners = [
    [0, 0],
    [widthMm, 0],
    [widthMm, heightMm],
    [0, heightMm],
  ] as const;
  return corners[(SIDES.indexOf(side) + end) % 4] ?? corners[0];
}

/** The scale beside a corner is unsure by as much as both its sides' ends, and by what the perspective of four such corners leaves open. */
const SCALE_OF_CORNERS = 2;

/** Of the corner itself; of the scale there, by unsure corners; and of the size that gives it. */
function spreadOf(valueMm: number, outline: Outline, size: SizeMm, { sheetToleranceMm }: MeasureContext): number {
  const ofShorter = valueMm / Math.min(size.widthMm, size.heightMm);
  const cornerMm = outline.cornerSpreadPx / pxPerMmOf(outline, size);
  return Math.hypot(cornerMm, SCALE_OF_CORNERS * ofShorter * cornerMm, ofShorter * evenlyWithin(sheetToleranceMm ?? 0));
}

const pxPerMmOf = ({ sheet }: Outline, size: SizeMm) =>
  scaleAt(homographyFromMm(size.widthMm, size.heightMm, sheet), size.widthMm / 2, size.heightMm / 2).alongX;
