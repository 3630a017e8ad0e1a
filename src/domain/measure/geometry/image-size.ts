import { homographyFromMm, inverse, project } from "../homography.ts";
import { eachCorner, lengthOf, SIDES } from "../lines.ts";
import type { Quad } from "../picture.ts";
import type { Outline } from "../reading.ts";
import { aspectMisfit, type SizeAsSeen, type SizeMm } from "../size-as-seen.ts";

/** A sheet whose proportions differ by more from the size that was entered does not measure its picture. */
const OTHER_SIZE = 0.05;

/**
 * The size of the picture inside the border, as the frame sees it: the catalogued one; else, since rulers are mostly laid on sheets,
 * what the picture takes of a sheet whose four sides were seen. Null where neither is known.
 */
export function imageSize(outline: Pick<Outline, "sheet" | "sides"> & { readonly image: Quad }, seen: SizeAsSeen): SizeMm | null {
  if (seen.image) return seen.image;
  const { sheet, sides, image } = outline;
  const isWhole = SIDES.every((side) => sides[side] === "seen");
  if (!seen.sheet || !isWhole || aspectMisfit(sheet, seen.sheet) > OTHER_SIZE) return null;
  const toMm = inverse(homographyFromMm(seen.sheet.widthMm, seen.sheet.heightMm, sheet));
  const onSheet = eachCorner(image, ({ x, y }) => project(toMm, x, y));
  return {
    widthMm: (lengthOf(onSheet, "top") + lengthOf(onSheet, "bottom")) / 2,
    heightMm: (lengthOf(onSheet, "left") + lengthOf(onSheet, "right")) / 2,
  };
}
