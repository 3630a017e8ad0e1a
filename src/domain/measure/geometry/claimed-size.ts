import { MM_PER_INCH } from "../../mm-per-inch.ts";
import { lengthOf } from "../lines.ts";
import type { Quad } from "../picture.ts";
import type { MeasureContext } from "../reading.ts";
import type { SizeMm } from "../size-as-seen.ts";

/**
 * Pixels per inch up to here are no claim: devices that do not know their scale write 72, the default of EXIF (CIPA DC-008), or 96, that of
 * screens.
 */
const HABITUAL_PPI = 96;

export const isHabitualPpi = (ppi: number): boolean => ppi <= HABITUAL_PPI;

/**
 * How large a quad of the frame, px, is in mm by the pixels per inch that the file claims, the mean of opposite sides; null where it claims
 * none, or what devices write by habit.
 */
export function claimedSize(quad: Quad, { claimedPpiX, claimedPpiY }: Pick<MeasureContext, "claimedPpiX" | "claimedPpiY">): SizeMm | null {
  if (!claimedPpiX || !claimedPpiY || isHabitualPpi(claimedPpiX) || isHabitualPpi(claimedPpiY)) return null;
  return {
    widthMm: ((lengthOf(quad, "top") + lengthOf(quad, "bottom")) / 2 / claimedPpiX) * MM_PER_INCH,
    heightMm: ((lengthOf(quad, "left") + lengthOf(quad, "right")) / 2 / claimedPpiY) * MM_PER_INCH,
  };
}
