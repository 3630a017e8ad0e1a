import { claimedSize } from "../measure/geometry/claimed-size.ts";
import { printScale } from "../measure/geometry/print-scale.ts";
import type { Picture } from "../measure/picture.ts";
import type { MeasureContext, Outline } from "../measure/reading.ts";
import { type SizeMm, sizeAsSeen } from "../measure/size-as-seen.ts";

type Size = SizeMm & { readonly samplingPpi: number };

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
export function sizeAsClaimed({ sheet }: Outline, context: MeasureContext): Size | null {
  const { claimedPpiX, claimedPpiY } = context;
  const size = claimedSize(sheet, context);
  return size && claimedPpiX && claimedPpiY ? { ...size, samplingPpi: Math.min(claimedPpiX, claimedPpiY) } : null;
}
