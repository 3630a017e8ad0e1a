import { seenThroughLens, straightenedQuad } from "../measure/geometry/lens.ts";
import { homographyFromMm, project } from "../measure/homography.ts";
import { lengthOf } from "../measure/lines.ts";
import type { Quad } from "../measure/picture.ts";
import type { SizeMm } from "../measure/size-as-seen.ts";
import { MOST_CANVAS_PX } from "./canvas.ts";
import { finestPxPerMm, type PlaceOnSheet } from "./seen-in-frame.ts";

/** A sheet to be straightened: its own corners in px of the frame, and what the lens does to its sides (Outline.radial). */
export type SheetInFrame = {
  readonly quad: Quad;
  readonly radial?: number | undefined;
  readonly frame: { readonly width: number; readonly height: number };
  /** null where nobody knows it: it is straightened in the proportions in which it is seen */
  readonly sheetMm: SizeMm | null;
};

/** How a sheet is straightened so that nothing its capture resolved is lost. */
export type StraightenedSheet = {
  readonly widthPx: number;
  readonly heightPx: number;
  /** of what is made; null where the size of the sheet is not known */
  readonly ppi: number | null;
  /** true where so many pixels cannot be held, and it is made coarser than the capture */
  readonly isReduced: boolean;
  /** mm, or px of the frame where the size is not known */
  readonly sheet: SizeMm;
  readonly pxPerUnit: number;
  readonly placeOf: PlaceOnSheet;
};

/**
 * Plans a sheet upright, at the finest sampling that its capture has anywhere on it, rounded up to whole pixels. The lens's bend is
 * taken out as far as the sides told it.
 */
export function straightenedSheet({ quad, radial, frame, sheetMm }: SheetInFrame): StraightenedSheet {
  const size = { widthPx: frame.width, heightPx: frame.height };
  const straight = straightenedQuad(quad, radial, size);
  const sheet = sheetMm ?? {
    widthMm: (lengthOf(straight, "top") + lengthOf(straight, "bottom")) / 2,
    heightMm: (lengthOf(straight, "left") + lengthOf(straight, "right")) / 2,
  };
  const map = homographyFromMm(sheet.widthMm, sheet.heightMm, straight);
  const placeOf: PlaceOnSheet = (x, y, into) => {
    const at = project(map, x, y);
    Object.assign(into, radial ? seenThroughLens(at, radial, size) : at);
  };
  const finest = finestPxPerMm(placeOf, sheet);
  const most = Math.sqrt(MOST_CANVAS_PX / (sheet.widthMm * sheet.heightMm));
  const pxPerUnit = Math.min(finest, most);
  return {
    widthPx: wholePx(sheet.widthMm * pxPerUnit),
    heightPx: wholePx(sheet.heightMm * pxPerUnit),
    ppi: sheetMm && 25.4 * pxPerUnit,
    isReduced: finest > most,
    sheet,
    pxPerUnit,
    placeOf,
  };
}

/** Rounded up, but not for a hundredth of a pixel, which is what corners are never known to. */
const wholePx = (px: number) => Math.max(1, Math.ceil(px - 0.01));
