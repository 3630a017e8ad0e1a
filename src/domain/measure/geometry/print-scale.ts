import { fillsFrame, frameQuad, isFrameSide, wholeImage } from "../frame.ts";
import { homographyFromMm, scaleAt } from "../homography.ts";
import { centreOf, distanceTo, lengthOf, linesOf, opposite, SIDES, type Side } from "../lines.ts";
import { evenlyWithin } from "../numbers/standard-uncertainty.ts";
import type { Picture, Quad } from "../picture.ts";
import type { MeasureContext, Outline, Reliability } from "../reading.ts";
import { aspectMisfit, type SizeMm, sizeAsSeen } from "../size-as-seen.ts";
import { straightenedQuad } from "./lens.ts";

/** Pixels per inch of the print itself, at its middle, along the frame's two directions. */
export type PrintScale = {
  readonly ppiX: number | null;
  readonly ppiY: number | null;
  /** standard uncertainty as a share of the value: size tolerance and unsure corners together */
  readonly spreadShare: number;
  readonly basis: "sheet" | "picture" | "whole frame" | "two opposite sides";
  readonly reliability: Reliability;
  readonly bound?: "lower";
  readonly note?: string;
};

/** Proportions that differ by more than this are of another print or another size. */
const OTHER_SIZE = 0.05;
/** Up to here, or to what the tolerance allows, proportions agree. */
const SAME_SIZE = 0.015;
/** Where a size comes without a tolerance. */
const UNSAID_TOLERANCE_MM = 1;
/** A picture's corners on drawn prints: 0.04 to 0.07 mm. */
const PICTURE_CORNER_MM = 0.06;
/** Firm where the value is known within this share. */
const FIRM_SHARE = 0.01;

/** The scale of the print, from the known length that is read best; or why there is none, in words for the keeper. */
export function printScale(picture: Picture, outline: Outline, context: MeasureContext): PrintScale | string {
  const straight = straightOutline(picture, outline);
  const scale = scaleWithoutLens(picture, straight, context);
  if (typeof scale === "string" || !outline.radial) return scale;
  // In the middle of the print the lens shows this much less, or more, than where it would without distortion.
  const middle = centreOf(frameQuad(picture));
  const at = centreOf(outline.sheet);
  const factor = 1 + 2 * outline.radial * ((at.x - middle.x) ** 2 + (at.y - middle.y) ** 2);
  return { ...scale, ppiX: scale.ppiX && scale.ppiX / factor, ppiY: scale.ppiY && scale.ppiY / factor };
}

/** The outline as a lens without distortion would show it. */
function straightOutline(picture: Picture, outline: Outline): Outline {
  if (!outline.radial || SIDES.some((side) => isFrameSide(outline.sheet, side, picture))) return outline;
  const image = outline.image && straightenedQuad(outline.image, outline.radial, picture);
  return { ...outline, sheet: straightenedQuad(outline.sheet, outline.radial, picture), image };
}

function scaleWithoutLens(picture: Picture, outline: Outline, context: MeasureContext): PrintScale | string {
  const sheetIsKnown = SIDES.every((side) => isPlaced(outline, side, picture));
  const image = wholeImage(outline, picture);
  const seen = sizeAsSeen(sheetIsKnown ? outline.sheet : null, image, context);
  const toleranceMm = context.sheetToleranceMm ?? UNSAID_TOLERANCE_MM;
  if (fillsFrame(outline, picture) && !(image && seen.image)) {
    return seen.sheet ? fromQuad(outline.sheet, seen.sheet, "whole frame", toleranceMm, null) : NO_SIZE;
  }
  const cornerMm = (quad: Quad, size: SizeMm) => (outline.cornerSpreadPx * size.widthMm) / lengthOf(quad, "top");
  const choices = [
    sheetIsKnown && seen.sheet ? fromQuad(outline.sheet, seen.sheet, "sheet", toleranceMm, cornerMm(outline.sheet, seen.sheet)) : null,
    image && seen.image ? fromQuad(image, seen.image, "picture", toleranceMm, PICTURE_CORNER_MM) : null,
  ].filter((each) => each !== null);
  const read = choices.filter((each) => typeof each !== "string").sort((p, q) => p.spreadShare - q.spreadShare)[0];
  if (read) return seen.isCertain ? read : { ...read, note: [NEARLY_SQUARE, read.note].filter(Boolean).join(" ") };
  if (choices[0]) return choices[0];
  if (!seen.sheet && !seen.image) return NO_SIZE;
  return (seen.sheet && fromOppositeSides(picture, outline, seen.sheet, toleranceMm)) ?? NOT_ENOUGH;
}

/** The line of the side is known: seen, or seen in part with a corner outside the frame; not the frame's own edge. */
const isPlaced = (outline: Outline, side: Side, picture: Picture) =>
  outline.sides[side] !== "assumed" && !isFrameSide(outline.sheet, side, picture);

function fromQuad(quad: Quad, size: SizeMm, basis: PrintScale["basis"], toleranceMm: number, cornerMm: number | null): PrintScale | string {
  const misfit = aspectMisfit(quad, size);
  const shorterMm = Math.min(size.widthMm, size.heightMm);
  // A crop takes or leaves a little that nobody can see.
  const unsureMm = cornerMm ?? 0.005 * shorterMm;
  const withinShare = Math.hypot(toleranceMm, Math.SQRT2 * unsureMm) / shorterMm;
  if (misfit > Math.max(OTHER_SIZE, 3 * withinShare)) return otherProportions(misfit, basis);
  const perMm = scaleAt(homographyFromMm(size.widthMm, size.heightMm, quad), size.widthMm / 2, size.heightMm / 2);
  const agrees = misfit <= Math.max(SAME_SIZE, 1.5 * withinShare);
  const spreadShare = Math.hypot(evenlyWithin(toleranceMm), Math.SQRT2 * unsureMm) / shorterMm;
  const isCropped = basis === "whole frame";
  const notes = [
    isCropped ? "The file is cropped to the print, so its edges are taken for those of the sheet." : "",
    agrees ? "" : `Its proportions differ by ${(100 * misfit).toFixed(1)} % from the size in the record; measure the print with a ruler.`,
  ].filter(Boolean);
  return {
    ppiX: perMm.alongX * 25.4,
    ppiY: perMm.alongY * 25.4,
    spreadShare: Math.max(spreadShare, agrees ? 0 : misfit),
    basis,
    reliability: !agrees ? "weak" : isCropped || withinShare > FIRM_SHARE ? "fair" : "firm",
    ...(notes.length > 0 && { note: notes.join(" ") }),
  };
}

/**
 * One direction alone, where the frame cuts the print in the other. Which of its sides is seen may then be open: the
 * longer one is taken, and the value is a lower bound, unless what is in the frame is too long for that way round.
 */
function fromOppositeSides(picture: Picture, outline: Outline, size: SizeMm, toleranceMm: number): PrintScale | null {
  const side = (["top", "left"] as const).find((each) => isPlaced(outline, each, picture) && isPlaced(outline, opposite(each), picture));
  if (!side) return null;
  const lines = linesOf(outline.sheet);
  const middle = centreOf(outline.sheet);
  const acrossPx = distanceTo(lines[side], middle) + distanceTo(lines[opposite(side)], middle);
  const visiblePx =
    side === "left"
      ? (lengthOf(outline.sheet, "left") + lengthOf(outline.sheet, "right")) / 2
      : (lengthOf(outline.sheet, "top") + lengthOf(outline.sheet, "bottom")) / 2;
  const lengths = [Math.max(size.widthMm, size.heightMm), Math.min(size.widthMm, size.heightMm)] as const;
  const isLonger = (visiblePx * lengths[0]) / acrossPx <= lengths[1] * (1 + SAME_SIZE);
  const isOpen = isLonger && lengths[0] / lengths[1] > 1 + SAME_SIZE;
  const seenMm = isLonger ? lengths[0] : lengths[1];
  const ppi = (25.4 * acrossPx) / seenMm;
  return {
    ppiX: side === "left" ? ppi : null,
    ppiY: side === "left" ? null : ppi,
    spreadShare: Math.hypot(evenlyWithin(toleranceMm) / seenMm, outline.cornerSpreadPx / acrossPx),
    basis: "two opposite sides",
    reliability: isOpen ? "weak" : "fair",
    ...(isOpen && { bound: "lower" as const }),
    note: "The frame cuts the print, so it was read in one direction only.",
  };
}

export const NO_SIZE = "the size of the print is not known; measure its sheet with a ruler, or name its format, and enter it in the record";
const NOT_ENOUGH =
  "too little of the print's edges is seen for a known length to be measured; capture it again on a plain ground of another tone, with a margin all round";
const NEARLY_SQUARE = "The print is so nearly square that which side is its width was not told; the scale hardly depends on it.";

const otherProportions = (misfit: number, basis: string) =>
  `what is seen differs by ${(100 * misfit).toFixed(0)} % in its proportions from the size in the record (${basis}); check the size, and that this is the print`;
