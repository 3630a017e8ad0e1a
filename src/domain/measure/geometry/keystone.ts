import { isFrameSide, wholeImage } from "../frame.ts";
import { homographyFromMm, inverse, project } from "../homography.ts";
import { endsOf, lengthOf, opposite, SIDES, type Side } from "../lines.ts";
import { evenlyWithin } from "../numbers/standard-uncertainty.ts";
import type { Picture, Point, Quad } from "../picture.ts";
import type { MeasureContext, Outline, Reading, Reliability } from "../reading.ts";
import { aspectMisfit, sizeAsSeen } from "../size-as-seen.ts";
import { straightenedQuad } from "./lens.ts";
import { NO_SIZE } from "./print-scale.ts";
import { NOT_FOUND } from "./sides-seen.ts";

/**
 * How much longer one side of the sheet looks than the side opposite: in percent of the shorter, and in mm of the print at the
 * scale of the shorter; the larger of both pairs. Nought for a sensor parallel to the print. Detail: both pairs with sign
 * (positive: the bottom, the right looks longer). What the lens bows is taken out first.
 *
 * Formula: 100 (longer / shorter - 1); times the catalogued length of that side, in mm. No standard known here fixes that
 * share; of the shorter is our own choice. Plane perspective: 1 + k is the ratio of both sides' distances from the lens.
 * Needs: four sides of the sheet. Where one of them was not seen well, the picture inside the border tells the perspective,
 * and the sheet only how far it reaches; where the frame cuts the sheet, the sizes of the record say that. Without them the
 * picture's own keystone is told, less surely: that of the sheet is larger, though no bound, since corners off by a little make of
 * none some.
 * Source: plane perspective; ISO 19264-1 names geometric distortion, without a limit for this part of it.
 */
export function keystone(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  if (!outline) return absent(NOT_FOUND);
  const seen = seenAs(picture, outline, context);
  if (!seen) return absent(NOT_FOUR);
  const { quad, basis, spreadShare, reliability, note } = seen;
  const down = excess(lengthOf(quad, "top"), lengthOf(quad, "bottom"));
  const across = excess(lengthOf(quad, "left"), lengthOf(quad, "right"));
  const size = sizeAsSeen(outline.sheet, outline.image, context)[basis === "sheet" ? "sheet" : "image"];
  const told = { reliability, ...(note && { note }) };
  const percent: Reading = {
    name: "keystonePercent",
    value: 100 * Math.max(Math.abs(down), Math.abs(across)),
    spread: 100 * spreadShare,
    ...told,
    detail: { bottomOverTopPercent: 100 * down, rightOverLeftPercent: 100 * across, basis },
  };
  if (!size) return [percent, { name: "keystoneMm", absent: NO_SIZE }];
  const value = Math.max(Math.abs(down) * size.widthMm, Math.abs(across) * size.heightMm);
  const sizeShare = evenlyWithin(context.sheetToleranceMm ?? 0) / Math.min(size.widthMm, size.heightMm);
  return [
    percent,
    {
      name: "keystoneMm",
      value,
      spread: Math.hypot(spreadShare * Math.max(size.widthMm, size.heightMm), sizeShare * value),
      ...told,
      detail: { bottomOverTopMm: down * size.widthMm, rightOverLeftMm: across * size.heightMm, basis },
    },
  ];
}

const absent = (reason: string): Reading[] => [
  { name: "keystonePercent", absent: reason },
  { name: "keystoneMm", absent: reason },
];
const NOT_FOUR = "not all four sides of the print are seen, so opposite sides cannot be compared";
const CUT = "The frame cuts the sheet, so it was read of the picture inside the border: that of the whole sheet is a little larger.";
const CUT_BUT_KNOWN =
  "The frame cuts the sheet, so its lean was read of the picture inside the border, and how far it reaches taken from the record.";

/** A sheet whose corners are less sure than this tells keystone less surely than its picture does. */
const SURE_SHARE = 0.0015;
/** Sheets are seldom longer than their picture by more than this share of it; keystone grows as much. Own; the 107.5 mm of an integral print are 1.4 times its 77. */
const MOST_BORDERS = 0.4;
/** A picture whose proportions differ by more from its size in the record is another one. */
const OTHER_SIZE = 0.05;
/** Corners of pictures on drawn prints: 0.07 mm in 80. */
const PICTURE_CORNER_SHARE = 0.0009;

/** The quad whose sides are compared, the lens taken out, and how surely: standard uncertainty as a share of a side. */
type Seen = {
  readonly quad: Quad;
  readonly basis: "sheet" | "picture";
  readonly spreadShare: number;
  readonly reliability: Reliability;
  readonly note?: string;
};

function seenAs(picture: Picture, outline: Outline, context: MeasureContext): Seen | null {
  const image = wholeImage(outline, picture);
  const isPlaced = SIDES.every((side) => outline.sides[side] !== "assumed" && !isFrameSide(outline.sheet, side, picture));
  const isSure = outline.cornerSpreadPx < SURE_SHARE * lengthOf(outline.sheet, "top");
  const straight = (quad: Quad) => straightenedQuad(quad, outline.radial, picture);
  const sheet = straight(outline.sheet);
  const cornerShare = outline.cornerSpreadPx / Math.min(...SIDES.map((side) => lengthOf(sheet, side)));
  if (isPlaced && (isSure || !image))
    return { quad: sheet, basis: "sheet", spreadShare: 2 * cornerShare, reliability: isSure ? "firm" : "fair" };
  if (!image) return null;
  const pictureShare = 2 * PICTURE_CORNER_SHARE;
  if (Object.values(outline.sides).includes("cut-off")) return seenOfCut(straight(image), context);
  const { quad, reach } = sheetByPicture(straight(image), reachesOf(sheet, straight(image)));
  const reachShare = Math.SQRT2 * cornerShare * excessOf(quad);
  return { quad, basis: "sheet", spreadShare: Math.hypot(pictureShare * reach, reachShare), reliability: "fair" };
}

/** Of a sheet that the frame cuts: it lies round its picture as far as both sizes say; without them the picture stands for it. */
function seenOfCut(image: Quad, context: MeasureContext): Seen {
  const pictureShare = 2 * PICTURE_CORNER_SHARE;
  const { sheet, image: imageMm } = sizeAsSeen(null, image, context);
  if (!sheet || !imageMm || aspectMisfit(image, imageMm) > OTHER_SIZE) {
    const borders = evenlyWithin(MOST_BORDERS * excessOf(image));
    return { quad: image, basis: "picture", spreadShare: Math.hypot(pictureShare, borders), reliability: "fair", note: CUT };
  }
  // Where the picture lies within its sheet hardly changes how much longer a side looks: the middle will do.
  const [across, down] = [sheet.widthMm / imageMm.widthMm, sheet.heightMm / imageMm.heightMm];
  const { quad, reach } = sheetByPicture(image, {
    top: (1 - down) / 2,
    right: (1 + across) / 2,
    bottom: (1 + down) / 2,
    left: (1 - across) / 2,
  });
  return { quad, basis: "sheet", spreadShare: pictureShare * reach, reliability: "fair", note: CUT_BUT_KNOWN };
}

/** Where the sheet's sides lie in its picture's own coordinates: 0 at the picture's top or left, 1 at its bottom or right. */
type Reaches = Readonly<Record<Side, number>>;

function reachesOf(sheet: Quad, image: Quad): Reaches {
  const toPicture = inverse(homographyFromMm(1, 1, image));
  const middleOf = (side: Side) => {
    const [from, to] = endsOf(sheet, side).map(({ x, y }) => project(toPicture, x, y)) as [Point, Point];
    return { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  };
  return { top: middleOf("top").y, right: middleOf("right").x, bottom: middleOf("bottom").y, left: middleOf("left").x };
}

/**
 * The sheet as a rectangle that lies along its picture and reaches as far, seen in the picture's perspective; and how many
 * times as long as the picture's its sides are, the larger of both ways.
 */
function sheetByPicture(image: Quad, { top, right, bottom, left }: Reaches): { readonly quad: Quad; readonly reach: number } {
  const toPx = homographyFromMm(1, 1, image);
  const quad = {
    topLeft: project(toPx, left, top),
    topRight: project(toPx, right, top),
    bottomRight: project(toPx, right, bottom),
    bottomLeft: project(toPx, left, bottom),
  };
  return { quad, reach: Math.max(right - left, bottom - top) };
}

/** By what share of the shorter the second is longer; negative when it is shorter. */
const excess = (first: number, second: number) => (second >= first ? second / first - 1 : 1 - first / second);

/** The larger of both pairs, without sign. */
const excessOf = (quad: Quad) =>
  Math.max(...(["top", "left"] as const).map((side) => Math.abs(excess(lengthOf(quad, side), lengthOf(quad, opposite(side))))));
