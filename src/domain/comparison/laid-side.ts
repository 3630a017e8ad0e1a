import type { Quad } from "../measure/picture.ts";
import type { SizeMm } from "../measure/size-as-seen.ts";
import type { Canvas } from "./canvas.ts";
import type { CloseUp } from "./close-up-places.ts";
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
  /** brings its tones to the reference's (tones.ts); null where that could not be told, and for the reference */
  readonly toneCurve: readonly number[] | null;
  /** shares of its picture by lightness (tones.ts) */
  readonly lightnessShares: readonly number[];
};

/** All captures of one side of a print, laid on one canvas. */
export type LaidSide = {
  readonly sheetMm: SizeMm;
  readonly isSizeKnown: boolean;
  readonly canvas: Canvas;
  readonly referenceId: number;
  readonly captures: readonly LaidCapture[];
  /** places worth looking at closely, and how wide a close-up of them is */
  readonly closeUps: readonly CloseUp[];
  readonly closeUpMm: number;
  readonly notLaid: readonly { readonly captureId: number; readonly why: string }[];
};
