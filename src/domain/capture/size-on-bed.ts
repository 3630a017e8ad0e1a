import { lengthOf } from "../measure/lines.ts";
import type { Picture } from "../measure/picture.ts";
import { printScale } from "../measure/print-scale.ts";
import type { MeasureContext, Outline } from "../measure/reading.ts";
import { sizeAsSeen } from "../measure/size-as-seen.ts";

type Size = { readonly widthMm: number; readonly heightMm: number; readonly samplingPpi: number; readonly from: "said" | "file" };

/** Devices that do not know their scale write 72 or 96. */
const HABITUAL_PPI = 100;
const MM_OF_AN_INCH = 25.4;

/**
 * Size in mm and sampling of one print as it lies in the image: by the size that was said, with the sampling that `measure` reads, else
 * by what the file claims; null where neither tells. A size that was said is not a print's that has other proportions.
 */
export function sizeOnBed(picture: Picture, outline: Outline, context: MeasureContext): Size | null {
  const { sheet, image } = outline;
  const scale = printScale(picture, outline, context);
  const said = sizeAsSeen(sheet, image, context).sheet;
  if (typeof scale !== "string" && said)
    return { ...said, samplingPpi: Math.min(...[scale.ppiX, scale.ppiY].filter((ppi) => ppi !== null)), from: "said" };
  const { claimedPpiX, claimedPpiY } = context;
  if (!claimedPpiX || !claimedPpiY || Math.min(claimedPpiX, claimedPpiY) <= HABITUAL_PPI) return null;
  return {
    widthMm: ((lengthOf(sheet, "top") + lengthOf(sheet, "bottom")) / 2 / claimedPpiX) * MM_OF_AN_INCH,
    heightMm: ((lengthOf(sheet, "left") + lengthOf(sheet, "right")) / 2 / claimedPpiY) * MM_OF_AN_INCH,
    samplingPpi: Math.min(claimedPpiX, claimedPpiY),
    from: "file",
  };
}
