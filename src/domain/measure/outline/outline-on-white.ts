import { homographyFromMm, inverse, project } from "../homography.ts";
import { aspectOf, distanceTo, eachCorner, endsOf, type Line, lengthOf, opposite, SIDES, type Side } from "../lines.ts";
import type { Point, Quad } from "../picture.ts";
import type { Outline } from "../reading.ts";
import { sizeAsSeen } from "../size-as-seen.ts";
import { completedSheet } from "./complete-sheet.ts";
import { isCroppedToSheet, wholeFrame } from "./outline-cropped.ts";
import { CLEAR_FROM, type FaintSide, findFaintSide } from "./outline-faint-side.ts";
import { refineRectangle } from "./outline-from-sheet.ts";
import { cornerSpread } from "./outline-refine.ts";
import type { Rectangle } from "./rectangle.ts";
import { toFull } from "./reduced-copy.ts";
import { wholeCopy } from "./region.ts";
import { roomBeside } from "./room-beside.ts";
import { labSampler } from "./samplers.ts";
import type { Search } from "./search.ts";
import { stripAlong } from "./strip.ts";

/** A faint side is good to 0.1 to 0.6 mm of a hundred, on drawn prints. */
const FAINT_SPREAD = 0.003;

/** Where nobody knows whether there is a border: most are narrower than a tenth of the sheet. Own. */
const UNKNOWN_BORDER = 0.06;
/** How far the split of two borders of which only the sum is known may be off, as a share of it: 5 + 9 mm are not halves. Own. */
const UNSPLIT = 0.12;
/** The ground along the frame, px of the reduced copy, and the share of it that must be plain. */
const AT_FRAME_PX = 3;
const LEAST_CALM = 0.75;
/** The edge of another print, and its shadow, begin so far before it, px of the copy. Own. */
const BLUR_PX = 2;
/** Cut sheets are out of square with their picture by up to half a degree; so much more is another line. */
const MOST_SLOPE = 0.02;

/**
 * The outline of a print of which only the picture stands out from a white ground. Sides of the sheet that show
 * faintly are taken; the rest is completed from the sizes, or failing them from the other borders, and marked assumed.
 * Where the white is the print's own border, cut at the frame, the frame is the sheet.
 */
export function outlineFromImage(search: Search, rectangle: Rectangle): Outline {
  const { picture, copy, context, beside } = search;
  const { quad: image, edges } = refineRectangle(picture, copy, rectangle);
  if (isCroppedToSheet(search, image, rectangle.around, true)) return wholeFrame(search, image);
  // On a restless ground its own lines stand out as clearly as a sheet's side.
  const isCalm = stripAlong(labSampler(copy), wholeCopy(copy), AT_FRAME_PX).plain > LEAST_CALM;
  const others = beside.map((each) => ({ ...each, quad: eachCorner(each.quad, (corner) => toFull(copy, corner)) }));
  const faint = new Map<Side, FaintSide>();
  for (const side of SIDES) {
    const found = isCalm ? findFaintSide(picture, image, side, roomBeside(image, side, others) - BLUR_PX * copy.factor) : null;
    if (found && found.clarity >= CLEAR_FROM && isSquareWith(image, side, found.line)) faint.set(side, found);
  }
  const sizes = sizeAsSeen(null, image, context);
  const imageSpreadPx = cornerSpread(
    SIDES.map((side) => edges[side]),
    Math.max(1, copy.factor / 2),
  );
  if (faint.size === 0 && !(sizes.sheet && sizes.image)) {
    if (isCroppedToSheet(search, image, rectangle.around, false)) return wholeFrame(search, image);
    // Nothing tells where the sheet ends, nor whether it has a border: the picture is all there is.
    return { sheet: image, image, cornerSpreadPx: UNKNOWN_BORDER * longestOf(image), sides: eachSide(() => false) };
  }
  const { sheet, seen } = completedSheet(image, faint, sizes);
  const faintPx = FAINT_SPREAD * longestOf(sheet);
  const unsplitPx = Math.max(
    ...(["top", "left"] as const).map((side) => (seen.has(side) || seen.has(opposite(side)) ? 0 : UNSPLIT * bordersPx(sheet, image, side))),
  );
  return {
    sheet,
    image,
    cornerSpreadPx: Math.hypot(imageSpreadPx, seen.size === 4 ? faintPx : 3 * faintPx, unsplitPx),
    sides: eachSide((side) => seen.has(side)),
  };
}

const longestOf = (quad: Quad) => Math.max(lengthOf(quad, "top"), lengthOf(quad, "left"));

/** Both borders of an axis together: those above and below for "top", those at the sides for "left". */
const bordersPx = (sheet: Quad, image: Quad, side: "top" | "left") => {
  const across = side === "top" ? "left" : "top";
  return Math.max(0, lengthOf(sheet, across) - lengthOf(image, across));
};

/** The line runs along the picture's side, as it would lie on the print. */
function isSquareWith(image: Quad, side: Side, line: Line): boolean {
  const toUnit = inverse(homographyFromMm(1, 1, image));
  const [from, to] = endsOf(image, side).map((end) => {
    const away = distanceTo(line, end);
    return project(toUnit, end.x - line.nx * away, end.y - line.ny * away);
  }) as [Point, Point];
  const isLevel = side === "top" || side === "bottom";
  const slope = isLevel ? (to.y - from.y) / (to.x - from.x) : (to.x - from.x) / (to.y - from.y);
  return Math.abs(slope) * (isLevel ? 1 / aspectOf(image) : aspectOf(image)) < MOST_SLOPE;
}

function eachSide(isSeen: (side: Side) => boolean): Outline["sides"] {
  const kind = (side: Side) => (isSeen(side) ? "seen" : "assumed");
  return { top: kind("top"), right: kind("right"), bottom: kind("bottom"), left: kind("left") };
}
