import { isFrameSide } from "./frame.ts";
import { lengthOf, SIDES } from "./lines.ts";
import type { Picture } from "./picture.ts";
import type { MeasureContext, Outline, Reading } from "./reading.ts";
import { NOT_FOUND } from "./sides-seen.ts";
import { sizeAsSeen } from "./size-as-seen.ts";

/**
 * How much longer one side looks than the side opposite, in percent of the shorter; the larger of both pairs. Nought for
 * a sensor parallel to the print. Detail: both pairs with sign (positive: the bottom, the right looks longer), and in mm
 * of the print how far the sides of the worse pair converge, where its size is known.
 *
 * Needs: four sides of the sheet, or else the picture inside its border. Source: plane perspective; ISO 19264-1 names
 * geometric distortion, without a limit for this part of it.
 */
export function keystone(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  if (!outline) return [{ name: "keystone", absent: NOT_FOUND }];
  const isSheet = SIDES.every((side) => outline.sides[side] !== "assumed" && !isFrameSide(outline.sheet, side, picture));
  const quad = isSheet ? outline.sheet : outline.image;
  if (!quad || (!isSheet && SIDES.some((side) => isFrameSide(quad, side, picture)))) {
    return [{ name: "keystone", absent: "not all four sides of the print are seen, so opposite sides cannot be compared" }];
  }
  const down = excess(lengthOf(quad, "top"), lengthOf(quad, "bottom"));
  const across = excess(lengthOf(quad, "left"), lengthOf(quad, "right"));
  const size = sizeAsSeen(outline.sheet, outline.image, context)[isSheet ? "sheet" : "image"];
  const shortest = Math.min(...SIDES.map((side) => lengthOf(quad, side)));
  return [
    {
      name: "keystone",
      value: 100 * Math.max(Math.abs(down), Math.abs(across)),
      spread: (200 * outline.cornerSpreadPx) / shortest,
      reliability: isSheet ? "firm" : "fair",
      detail: {
        bottomOverTopPercent: 100 * down,
        rightOverLeftPercent: 100 * across,
        convergenceMm: size && Math.max(Math.abs(down) * size.widthMm, Math.abs(across) * size.heightMm),
        basis: isSheet ? "sheet" : "picture",
      },
    },
  ];
}

/** By what share of the shorter the second is longer; negative when it is shorter. */
const excess = (first: number, second: number) => (second >= first ? second / first - 1 : 1 - first / second);
