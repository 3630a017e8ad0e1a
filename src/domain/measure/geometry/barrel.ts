import { isFrameSide, wholeImage } from "../frame.ts";
import { endsOf, lengthOf, SIDES, type Side } from "../lines.ts";
import { findEdge } from "../outline/edge-line.ts";
import { linearProfiles } from "../outline/samplers.ts";
import type { Picture, Quad } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { barrelOfPair, bowOf, bowsOf, isOfLens, lensFrom, type SideBow } from "./lens.ts";
import { NOT_FOUND } from "./sides-seen.ts";

/**
 * By how much the lens bows the print's straight sides, in percent: barrel positive, pincushion negative.
 *
 * Formula: 100 (B - A) / B, A the mean distance of two opposite sides at their ends, B their distance in the middle; for
 * the pair that is bowed more. That is the TV distortion of SMIA 1.0, section 5.20, with its sign turned (from memory),
 * of the print instead of the whole frame: the same lens bows a print that fills the frame more. The bows of all sides,
 * of sheet and picture, are fitted by one radial distortion about the middle of the frame first; detail has it at the
 * frame's corner.
 *
 * Needs: sides in both directions. Absent where the sides bow otherwise than any lens would, as a curled sheet's do, in
 * one direction only. A sheet domed evenly in both looks the same as a lens.
 */
export function barrel(picture: Picture, outline: Outline | null, _context: MeasureContext): Reading[] {
  if (!outline) return [{ name: "barrelPercent", absent: NOT_FOUND }];
  const image = wholeImage(outline, picture);
  const bows = [
    ...sidesOf(
      picture,
      outline.sheet,
      outline.radial,
      (side) => outline.sides[side] === "seen" && !isFrameSide(outline.sheet, side, picture),
    ),
    ...(image ? sidesOf(picture, image, outline.radial, () => true) : []),
  ];
  const fit = lensFrom(bows, picture);
  if (!fit) return [{ name: "barrelPercent", absent: TOO_FEW }];
  if (!isOfLens(fit, bows)) return [{ name: "barrelPercent", absent: NOT_FLAT }];
  const { percent, side } = barrelOfPair(outline.sheet, bowsOf(outline.sheet, fit.radial, picture));
  const perRadial = Math.abs(barrelOfPair(outline.sheet, bowsOf(outline.sheet, fit.spread, picture)).percent);
  const cornerSquare = (picture.widthPx ** 2 + picture.heightPx ** 2) / 4;
  return [
    {
      name: "barrelPercent",
      value: percent,
      spread: perRadial,
      reliability: "fair",
      ...(Math.abs(percent) > 4 * perRadial && { note: DOMED }),
      detail: {
        pair: side === "top" ? "top and bottom" : "left and right",
        atFrameCornerPercent: 100 * fit.radial * cornerSquare,
        bows: bows.map(({ side: of, bowPx, spreadPx }, index) => ({ side: of, bowPx, spreadPx, notOfLensPx: fit.leftPx[index] ?? 0 })),
      },
    },
  ];
}

const REACH_PX = 8;
/** A side followed along less of its length does not tell how it bows. */
const LEAST_SHARE = 0.7;

function sidesOf(picture: Picture, quad: Quad, radial: number | undefined, isSeen: (side: Side) => boolean): SideBow[] {
  const sample = linearProfiles(picture);
  const known = bowsOf(quad, radial, picture);
  return SIDES.filter(isSeen).flatMap((side) => {
    const tolerancePx = Math.max(1.2, 0.001 * lengthOf(quad, side));
    const options = { reachPx: REACH_PX, lagPx: 1, profiles: 160, leastStep: 0.012, tolerancePx, bowPx: known[side] };
    const edge = findEdge(sample, ...endsOf(quad, side), options);
    return edge && edge.share >= LEAST_SHARE ? bowOf(quad, edge, side) : [];
  });
}

const TOO_FEW =
  "the sides of the print were not seen well enough in both directions to tell how they bow; a plain ground of another tone, with a margin all round, would tell";
const NOT_FLAT =
  "the sides bow otherwise than a lens bends them, so the print is curled or cut unevenly, and the lens cannot be told apart from it; lay the print flat, or capture a ruler's straight edge along the frame";
const DOMED = "A sheet that is domed evenly would look the same; a straight ruler along the frame's edge would tell.";
