import { isFrameSide, wholeImage } from "./frame.ts";
import { straightenedQuad } from "./lens.ts";
import { lengthOf, SIDES } from "./lines.ts";
import type { Picture } from "./picture.ts";
import { NO_SIZE } from "./print-scale.ts";
import type { MeasureContext, Outline, Reading } from "./reading.ts";
import { NOT_FOUND } from "./sides-seen.ts";
import { sizeAsSeen } from "./size-as-seen.ts";

/**
 * How much longer one side looks than the side opposite: in percent of the shorter, and in mm of the print at the scale
 * of the shorter; the larger of both pairs. Nought for a sensor parallel to the print. Detail: both pairs with sign
 * (positive: the bottom, the right looks longer). What the lens bows is taken out first.
 *
 * Formula: 100 (longer / shorter - 1); times the catalogued length of that side, in mm.
 * Needs: four sides of the sheet, or else the picture inside its border. Source: plane perspective; ISO 19264-1 names
 * geometric distortion, without a limit for this part of it.
 */
export function keystone(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  if (!outline) return absent(NOT_FOUND);
  const image = wholeImage(outline, picture);
  const isPlaced = SIDES.every((side) => outline.sides[side] !== "assumed" && !isFrameSide(outline.sheet, side, picture));
  const isSure = outline.cornerSpreadPx < SURE_SHARE * lengthOf(outline.sheet, "top");
  const isSheet = isPlaced && (isSure || !image);
  const seen = isSheet ? outline.sheet : image;
  if (!seen) return absent(NOT_FOUR);
  const quad = straightenedQuad(seen, outline.radial, picture);
  const down = excess(lengthOf(quad, "top"), lengthOf(quad, "bottom"));
  const across = excess(lengthOf(quad, "left"), lengthOf(quad, "right"));
  const size = sizeAsSeen(outline.sheet, outline.image, context)[isSheet ? "sheet" : "image"];
  const shortest = Math.min(...SIDES.map((side) => lengthOf(quad, side)));
  const spreadShare = isSheet ? (2 * outline.cornerSpreadPx) / shortest : 2 * PICTURE_CORNER_SHARE;
  const reliability = isSheet ? "firm" : "fair";
  const basis = isSheet ? "sheet" : "picture";
  return [
    {
      name: "keystonePercent",
      value: 100 * Math.max(Math.abs(down), Math.abs(across)),
      spread: 100 * spreadShare,
      reliability,
      detail: { bottomOverTopPercent: 100 * down, rightOverLeftPercent: 100 * across, basis },
    },
    size
      ? {
          name: "keystoneMm",
          value: Math.max(Math.abs(down) * size.widthMm, Math.abs(across) * size.heightMm),
          spread: spreadShare * Math.max(size.widthMm, size.heightMm),
          reliability,
          detail: { bottomOverTopMm: down * size.widthMm, rightOverLeftMm: across * size.heightMm, basis },
        }
      : { name: "keystoneMm", absent: NO_SIZE },
  ];
}

const absent = (reason: string): Reading[] => [
  { name: "keystonePercent", absent: reason },
  { name: "keystoneMm", absent: reason },
];
const NOT_FOUR = "not all four sides of the print are seen, so opposite sides cannot be compared";

/** A sheet whose corners are less sure than this tells keystone less surely than its picture does. */
const SURE_SHARE = 0.0015;
/** Corners of pictures on drawn prints: 0.07 mm in 80. */
const PICTURE_CORNER_SHARE = 0.0009;

/** By what share of the shorter the second is longer; negative when it is shorter. */
const excess = (first: number, second: number) => (second >= first ? second / first - 1 : 1 - first / second);
