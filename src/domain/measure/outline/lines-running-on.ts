import { lengthOf, SIDES } from "../lines.ts";
import type { Outline } from "../reading.ts";
import { doubting } from "./doubted-sides.ts";
import { quadToCopy, type ReducedCopy } from "./reduced-copy.ts";
import { endsRunningOn } from "./runs-on.ts";

/** So much of a side's own step must go on beyond both its corners. Own. */
const AS_STRONG = 0.5;
/** Where the side itself lies is then not known: one sigma, as a share of the longer side. Own. */
const LOST_SHARE = 0.06;

/**
 * The outline with those sides in doubt whose line runs straight on beyond both corners, as the line of a check or the joint
 * of a board does, and no sheet's side: the sheet may end before it.
 */
export function doubtedByLines(copy: ReducedCopy, outline: Outline): Outline {
  const sheet = quadToCopy(copy, outline.sheet);
  const drawn = SIDES.filter((side) => outline.sides[side] === "seen" && endsRunningOn(copy, sheet, side, AS_STRONG) === 2);
  if (drawn.length === 0) return outline;
  const offPx = LOST_SHARE * Math.max(lengthOf(outline.sheet, "top"), lengthOf(outline.sheet, "left"));
  return doubting(outline, drawn, offPx);
}
