import { frameQuad } from "../frame.ts";
import { claimedSize } from "../geometry/claimed-size.ts";
import { centreOf, eachSide, endsOf, lengthOf, quadOf, SIDES, type Side } from "../lines.ts";
import { evenlyWithin } from "../numbers/standard-uncertainty.ts";
import type { Point, Quad } from "../picture.ts";
import type { Outline } from "../reading.ts";
import { type SizeMm, sizeAsSeen, turnedSize } from "../size-as-seen.ts";
import { refineRectangle } from "./outline-from-sheet.ts";
import { findImageInwards } from "./outline-image.ts";
import { LEAST_PAPER_LIGHTNESS } from "./paper-lightness.ts";
import type { ReducedCopy } from "./reduced-copy.ts";
import { wholeCopy } from "./region.ts";
import { labSampler } from "./samplers.ts";
import type { Search } from "./search.ts";
import { type Strip, stripAlong } from "./strip.ts";

/** How near the frame must come to the size that the picture, or the file's claim, foretells for the sheet. */
const AGREEMENT = 0.02;
/** Cropping takes or leaves about so much of the longer side. Common practice, no source. */
const CROP_SPREAD = 0.002;

/**
 * A file cropped to the sheet itself has no ground to find the sheet on: the frame stands for it, all sides assumed.
 * Believed when the file claims pixels per inch at which the frame has the catalogued size, or when a plain bright
 * border runs along the frame and a picture lies inside it (with `needsSizes`, as large as the sizes say). Else null.
 */
export function croppedOutline(search: Search, needsSizes: boolean): Outline | null {
  const { picture, copy } = search;
  const isClaimed = claimAgrees(search);
  const inside = findImageInwards(copy, wholeCopy(copy));
  if (!inside) return isClaimed ? wholeFrame(search, null) : null;
  const image = refineRectangle(picture, copy, inside).quad;
  if (isClaimed) return (isOwnPicture(search, image, inside.around) ? askewSheet(search, image) : null) ?? wholeFrame(search, null);
  return isCroppedToSheet(search, image, inside.around, needsSizes) ? wholeFrame(search, image) : null;
}

/**
 * What was found inside is the sheet's picture and no painting or window within one: paper lies around it, and it is as large as the
 * record says by the file's claim, or failing that leaves room for borders only.
 */
function isOwnPicture({ picture, copy, context }: Search, image: Quad, around: Strip): boolean {
  if (!isPaperAround(copy, around)) return false;
  const { image: imageMm } = sizeAsSeen(null, image, context);
  const claimed = claimedSize(image, context);
  return imageMm && claimed ? isNear(claimed, imageMm) : leavesBorders(image, picture);
}

/** So straight, as slopes, the four sides of a picture agree on how it lies in a scan. Own. */
const ONE_SLOPE = 0.008;
/** How far a picture between like borders lies from the middle of its sheet, as a share of the longer side. Own. */
const OFF_MIDDLE = 0.02;

/**
 * A frame as large as the sheet whose picture lies askew in it, as when a feeder pulled the sheet in crooked: the sheet lies as its
 * picture does, and reaches out of the frame. Its middle is its picture's; where the frame's middle lies farther off than like borders
 * explain, as over the wide foot of an instant print, it is the frame's as far as the borders leave room, and less sure by so much.
 * Null where it might lie within the frame after all.
 */
function askewSheet({ picture }: Search, image: Quad): Outline | null {
  const { widthPx, heightPx } = picture;
  const slopes = SIDES.map((side) => {
    const [from, to] = endsOf(image, side);
    const turn = SIDES.indexOf(side) * (Math.PI / 2);
    return Math.tan(Math.atan2(to.y - from.y, to.x - from.x) - turn);
  });
  const slope = slopes.reduce((sum, each) => sum + each / 4, 0);
  if (slopes.some((each) => Math.abs(each - slope) > ONE_SLOPE)) return null;
  const isOutside = Math.abs(slope) * widthPx > AGREEMENT * heightPx || Math.abs(slope) * heightPx > AGREEMENT * widthPx;
  if (!isOutside) return null;
  const [cos, sin] = [1 / Math.hypot(1, slope), slope / Math.hypot(1, slope)];
  const ofPicture = centreOf(image);
  const ofFrame = centreOf(frameQuad(picture));
  const [dx, dy] = [ofFrame.x - ofPicture.x, ofFrame.y - ofPicture.y];
  const likePx = OFF_MIDDLE * Math.max(widthPx, heightPx);
  /** `awayPx` as far as the borders of that direction leave room; 0 where they may be alike */
  const shift = (awayPx: number, bordersPx: number) =>
    Math.abs(awayPx) < likePx ? 0 : Math.sign(awayPx) * Math.min(Math.abs(awayPx), Math.max(0, bordersPx) / 2);
  const along = shift(dx * cos + dy * sin, widthPx - (lengthOf(image, "top") + lengthOf(image, "bottom")) / 2);
  const down = shift(dy * cos - dx * sin, heightPx - (lengthOf(image, "left") + lengthOf(image, "right")) / 2);
  const middle = { x: ofPicture.x + along * cos - down * sin, y: ofPicture.y + along * sin + down * cos };
  const corner = (x: number, y: number): Point => ({
    x: middle.x + (x * widthPx * cos - y * heightPx * sin) / 2,
    y: middle.y + (x * widthPx * sin + y * heightPx * cos) / 2,
  });
  return {
    sheet: quadOf([corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)]),
    image,
    cornerSpreadPx: Math.hypot(likePx, evenlyWithin(Math.hypot(along, down))),
    sides: eachSide(() => "assumed"),
  };
}

export function wholeFrame({ picture }: Search, image: Quad | null): Outline {
  return {
    sheet: frameQuad(picture),
    image,
    cornerSpreadPx: CROP_SPREAD * Math.max(picture.widthPx, picture.heightPx),
    sides: { top: "assumed", right: "assumed", bottom: "assumed", left: "assumed" },
  };
}

/**
 * Whether the plain ground around a picture is its own border, cut at the frame. With known sizes the frame must be as
 * large as the picture foretells. Without, the borders must look like borders, and `needsSizes` says whether that will do.
 */
export function isCroppedToSheet({ picture, copy, context }: Search, image: Quad, around: Strip, needsSizes: boolean): boolean {
  if (!isPaperAround(copy, around)) return false;
  if (SIDES.some((side) => slantOf(image, side) > 0.026)) return false;
  const { sheet, image: imageMm } = sizeAsSeen(null, image, context);
  if (sheet && imageMm)
    return [[sheet, imageMm] as const, [turnedSize(sheet), turnedSize(imageMm)] as const].some(([s, i]) => foretells(image, i, s, picture));
  return !needsSizes && leavesBorders(image, picture);
}

/** What lies along the frame is plain and bright as paper is, and the same as what lies around the picture. */
function isPaperAround(copy: ReducedCopy, around: Strip): boolean {
  const atFrame = stripAlong(labSampler(copy), wholeCopy(copy), 3);
  if (atFrame.lightness < LEAST_PAPER_LIGHTNESS || atFrame.chroma > 20) return false;
  return atFrame.plain >= 0.75 && Math.abs(atFrame.lightness - around.lightness) <= 6;
}

/** As wide as borders are. */
function leavesBorders(image: Quad, picture: { widthPx: number; heightPx: number }): boolean {
  const margins = marginsOf(image, picture);
  return margins.every((margin) => margin > 0.004 && margin < 0.4) && Math.min(...margins) < 0.12;
}

function claimAgrees({ picture, context }: Search): boolean {
  const { sheetWidthMm, sheetHeightMm } = context;
  const frame = claimedSize(frameQuad(picture), context);
  if (!frame || !sheetWidthMm || !sheetHeightMm) return false;
  const sheet = { widthMm: sheetWidthMm, heightMm: sheetHeightMm };
  return isNear(frame, sheet) || isNear(frame, turnedSize(sheet));
}

function foretells(image: Quad, imageMm: SizeMm, sheetMm: SizeMm, picture: { widthPx: number; heightPx: number }): boolean {
  const across = (lengthOf(image, "top") + lengthOf(image, "bottom")) / 2 / imageMm.widthMm;
  const down = (lengthOf(image, "left") + lengthOf(image, "right")) / 2 / imageMm.heightMm;
  return isNear({ widthMm: picture.widthPx / across, heightMm: picture.heightPx / down }, sheetMm);
}

const isNear = (a: SizeMm, b: SizeMm) =>
  Math.abs(a.widthMm / b.widthMm - 1) < AGREEMENT && Math.abs(a.heightMm / b.heightMm - 1) < AGREEMENT;

/** Slope of a side against the frame's. */
function slantOf(quad: Quad, side: Side): number {
  const [from, to] = endsOf(quad, side);
  const [dx, dy] = [Math.abs(to.x - from.x), Math.abs(to.y - from.y)];
  return Math.min(dx, dy) / Math.max(dx, dy);
}

/** Borders as shares of the picture's own size: top, right, bottom, left. */
function marginsOf(image: Quad, picture: { widthPx: number; heightPx: number }): number[] {
  const centre = centreOf(image);
  const width = (lengthOf(image, "top") + lengthOf(image, "bottom")) / 2;
  const height = (lengthOf(image, "left") + lengthOf(image, "right")) / 2;
  return [
    (centre.y + 0.5) / height - 0.5,
    (picture.widthPx - 0.5 - centre.x) / width - 0.5,
    (picture.heightPx - 0.5 - centre.y) / height - 0.5,
    (centre.x + 0.5) / width - 0.5,
  ];
}
