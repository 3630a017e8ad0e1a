/** A picture of one side of a print, straightened: its pixels lie on the print's own mm grid, whichever capture it was made from. */
export type SidePictureSize = { readonly widthPx: number; readonly heightPx: number; readonly pxPerMm: number };

const LONG_SIDE_PX = 1200;
/** More than this a picture for the screen does not hold of a small print. */
const MOST_PX_PER_MM = 12;

export function sidePictureSize(sheet: { readonly widthMm: number; readonly heightMm: number }): SidePictureSize {
  const pxPerMm = Math.min(MOST_PX_PER_MM, LONG_SIDE_PX / Math.max(sheet.widthMm, sheet.heightMm));
  return { widthPx: Math.round(sheet.widthMm * pxPerMm), heightPx: Math.round(sheet.heightMm * pxPerMm), pxPerMm };
}
