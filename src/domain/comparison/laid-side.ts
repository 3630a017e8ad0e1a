import type { Quad } from "../measure/picture.ts";
import type { SizeMm } from "../measure/size-as-seen.ts";
import type { Canvas } from "./canvas.ts";
import type { LaidBy } from "./lay-on-sheet.ts";

/** One capture as it was laid on the canvas. */
export type LaidCapture = {
  readonly captureId: number;
  readonly laidBy: LaidBy;
  /** why no detail could be followed, in words for the keeper */
  readonly why: string | null;
  readonly residualMm: number | null;
  readonly residual95Mm: number | null;
  /** the capture's own pixels to the mm, and those it was laid at: fewer only where more could not be held */
  readonly ownPxPerMm: number;
  readonly pxPerMm: number;
  /** where the sheet's corners, named from the print's own top left, lie in the capture's frame */
  readonly sheetInFrame: Quad;
};

/** All captures of one side of a print, laid on one canvas. */
export type LaidSide = {
  readonly sheetMm: SizeMm;
  readonly isSizeKnown: boolean;
  readonly canvas: Canvas;
  readonly referenceId: number;
  readonly captures: readonly LaidCapture[];
  readonly notLaid: readonly { readonly captureId: number; readonly why: string }[];
};
