import { lengthOf } from "../measure/lines.ts";
import type { Picture } from "../measure/picture.ts";
import { printScale } from "../measure/print-scale.ts";
import type { MeasureContext, Outline } from "../measure/reading.ts";
import { sizeAsSeen } from "../measure/size-as-seen.ts";

type Size = { readonly widthMm: number; readonly heightMm: number; readonly samplingPpi: number };

/** Devices that do not know their scale write 72 or 96. */
const HABITUAL_PPI = 100;
const MM_OF_AN_INCH = 25.4;

/**
 * The size that was said, turned to how the print lies in the image, with the sampling that `measure` reads by it (the lower of both
 * directions); null where none was said, or the print has other proportions.
 */
export function sizeAsSaid(picture: Picture, outline: Outline, context: MeasureContext): Size | null {
  const scale = printScale(picture, outline, context);
  const said = sizeAsSeen(outline.sheet, outline.image, context).sheet;
  if (typeof scale === "string" || !said) return null;
  return { ...said, samplingPpi: Math.min(...[scale.ppiX, scale.ppiY].filter((ppi) => ppi !== null)) };
}

/** The size as it lies in the image by the pixels per inch that the file claims; null where it claims none, or what devices write by habit. */
export function sizeAsClaimed({ sheet }: Outline, { claimedPpiX, claimedPpiY }: MeasureContext): Size | null {
  if (!claimedPpiX || !claimedPpiY || Math.min(claimedPpiX, claimedPpiY) <= HABITUAL_PPI) return null;
  return {
    widthMm: ((lengthOf(sheet, "top") + lengthOf(sheet, "bottom")) / 2 / claimedPpiX) * MM_OF_AN_INCH,
    heightMm: ((lengthOf(sheet, "left") + lengthOf(sheet, "right")) / 2 / claimedPpiY) * MM_OF_AN_INCH,
    samplingPpi: Math.min(claimedPpiX, claimedPpiY),
  };
}
