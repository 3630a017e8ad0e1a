import { isFrameSide, wholeImage } from "../frame.ts";
import { homographyFromMm, inverse, project } from "../homography.ts";
import { areaOf, cornersOf, SIDES } from "../lines.ts";
import type { Picture, Quad } from "../picture.ts";
import type { MeasureContext, Outline } from "../reading.ts";
import { sizeAsSeen } from "../size-as-seen.ts";

/**
 * Share of the print's sheet, by area, that its picture takes, 0 to 1, on the sheet's own plane: where four sides of the sheet were seen by
 * mapping them to a square, which keeps ratios of areas whatever the size; where not, by the catalogued sizes of sheet and picture. 1 where a whole sheet
 * shows no border. Null where the frame cuts the picture, and where a side of the sheet was not seen and a size is not known.
 */
export function shareOfSheet(
  outline: Pick<Outline, "sheet" | "image" | "sides" | "doubt">,
  context: MeasureContext,
  picture: Pick<Picture, "widthPx" | "heightPx">,
): number | null {
  const { sheet, sides, image, doubt } = outline;
  const isWhole = doubt === undefined && SIDES.every((side) => sides[side] !== "assumed" && !isFrameSide(sheet, side, picture));
  if (!image) return isWhole ? 1 : null;
  if (!wholeImage(outline, picture)) return null;
  if (isWhole) return Math.min(1, shareOn(sheet, image));
  const seen = sizeAsSeen(sheet, image, context);
  if (!seen.sheet || !seen.image) return null;
  return Math.min(1, (seen.image.widthMm * seen.image.heightMm) / (seen.sheet.widthMm * seen.sheet.heightMm));
}

function shareOn(sheet: Quad, image: Quad): number {
  const toSquare = inverse(homographyFromMm(1, 1, sheet));
  return Math.abs(areaOf(cornersOf(image).map(({ x, y }) => project(toSquare, x, y))));
}
