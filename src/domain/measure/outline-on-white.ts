import { completedSheet } from "./complete-sheet.ts";
import { lengthOf, SIDES, type Side } from "./lines.ts";
import { isCroppedToSheet, wholeFrame } from "./outline-cropped.ts";
import { CLEAR_FROM, type FaintSide, findFaintSide } from "./outline-faint-side.ts";
import { refineRectangle } from "./outline-from-sheet.ts";
import { cornerSpread } from "./outline-refine.ts";
import type { Outline } from "./reading.ts";
import type { Rectangle } from "./rectangle.ts";
import type { Search } from "./search.ts";
import { sizeAsSeen } from "./size-as-seen.ts";

/** A faint side is good to 0.1 to 0.6 mm of a hundred, on drawn prints. */
const FAINT_SPREAD = 0.003;

/**
 * The outline of a print of which only the picture stands out from a white ground. Sides of the sheet that show
 * faintly are taken; the rest is completed from the sizes, or failing them from the other borders, and marked assumed.
 * Where the white is the print's own border, cut at the frame, the frame is the sheet.
 */
export function outlineFromImage(search: Search, rectangle: Rectangle): Outline {
  const { picture, copy, context } = search;
  const { quad: image, edges } = refineRectangle(picture, copy, rectangle);
  if (isCroppedToSheet(search, image, rectangle.around, true)) return wholeFrame(search, image);
  const faint = new Map<Side, FaintSide>();
  for (const side of SIDES) {
    const found = findFaintSide(picture, image, side);
    if (found && found.clarity >= CLEAR_FROM) faint.set(side, found);
  }
  const sizes = sizeAsSeen(null, image, context);
  const imageSpreadPx = cornerSpread(
    SIDES.map((side) => edges[side]),
    Math.max(1, copy.factor / 2),
  );
  if (faint.size === 0 && !(sizes.sheet && sizes.image)) {
    if (isCroppedToSheet(search, image, rectangle.around, false)) return wholeFrame(search, image);
    // Nothing tells where the sheet ends, nor whether it has a border: the picture is all there is.
    return { sheet: image, image, cornerSpreadPx: imageSpreadPx, sides: eachSide(() => false) };
  }
  const { sheet, seen } = completedSheet(image, faint, sizes);
  const faintPx = FAINT_SPREAD * Math.max(lengthOf(sheet, "top"), lengthOf(sheet, "left"));
  return {
    sheet,
    image,
    cornerSpreadPx: Math.hypot(imageSpreadPx, seen.size === 4 ? faintPx : 3 * faintPx),
    sides: eachSide((side) => seen.has(side)),
  };
}

function eachSide(isSeen: (side: Side) => boolean): Outline["sides"] {
  const kind = (side: Side) => (isSeen(side) ? "seen" : "assumed");
  return { top: kind("top"), right: kind("right"), bottom: kind("bottom"), left: kind("left") };
}
