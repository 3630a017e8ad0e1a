import type { Border } from "../border/border.ts";
import { type FrameAxis, SIDES_OF, zoneAt } from "../border/border-profiles.ts";
import { median, robustSpread } from "../numbers/robust.ts";
import { trimmedMean } from "../numbers/trimmed-mean.ts";
import type { Picture } from "../picture.ts";
import { lineContrasts } from "./line-contrasts.ts";
import type { Streak } from "./streak-search.ts";

/** Rows of one block of a JPEG file fail together. */
const ROWS_OF_A_GROUP = 8;
const MOST_GROUPS = 16;
const FEWEST_GROUPS = 4;
const LEAST_T = 4;
/** Share of the streak's strength that the middle group of each border must show, however unsure it is. */
const isNearOne = (share: number) => share > 0.4 && share < 2;

/**
 * Whether a streak runs on through the whole depth of both borders, as dirt on a sensor strip does: its contrast in
 * groups of eight rows, whose trimmed mean must be four times its standard error. A speck, a stroke or a block of a JPEG file
 * stands in a few groups only.
 */
export function runsThroughBorders(picture: Picture, border: Border, axis: FrameAxis, streak: Streak): boolean {
  const core = Math.max(1, Math.round(streak.widthPx / 2));
  const groups = SIDES_OF[axis].map((side) => {
    const { from, to } = zoneAt(border, axis, side, streak.atPx);
    const count = Math.min(MOST_GROUPS, Math.floor((to - from + 1) / ROWS_OF_A_GROUP));
    return Array.from({ length: count }, (_, group) => {
      const first = from + Math.floor((group * (to - from + 1 - ROWS_OF_A_GROUP)) / Math.max(1, count - 1));
      const rows = Array.from({ length: ROWS_OF_A_GROUP }, (_, row) => first + row);
      return mean(lineContrasts(picture, axis, streak.atPx, core, rows)) / streak.strength;
    });
  });
  const read = groups.map((each) => each.filter((share) => !Number.isNaN(share)));
  if (read.some((each) => each.length > 0 && !isNearOne(median(each)))) return false;
  const all = read.flat();
  if (all.length < FEWEST_GROUPS) return true;
  return trimmedMean(all) >= (LEAST_T * robustSpread(all)) / Math.sqrt(all.length);
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
