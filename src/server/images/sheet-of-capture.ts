import type { SheetInFrame } from "#domain/comparison/straightened-sheet.ts";
import { sidePictureSize } from "#domain/condition/side-picture.ts";
import { foundOutlines, standingOutline } from "#domain/measure/kept-outlines.ts";
import { lengthOf } from "#domain/measure/lines.ts";
import { ownQuad } from "#domain/measure/outline/own-quad.ts";
import { sheetSize } from "#domain/print/dimensions.ts";
import type { CaptureWithOriginal } from "#drizzle/queries/captures.ts";
import { findMeasureSet } from "#drizzle/queries/measures.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import type { Context } from "../context.ts";
import type { SheetToShow } from "./side-picture.ts";

/** A sheet in a capture, small for a page or whole. */
export type SheetOfCapture = SheetToShow & Pick<SheetInFrame, "sheetMm" | "radial">;

/** The longer side of a sheet whose size nobody knows. */
const LONG_SIDE_PX = 1000;

/**
 * One of the sheets in a capture, by its number as the outlines are numbered: on the mm grid of its print where that is known and is the
 * only one, else in the proportions in which it is seen. Null where there is none of that number.
 */
export function sheetOfCapture(context: Context, capture: CaptureWithOriginal, part: number): SheetOfCapture | null {
  const set = findMeasureSet(context.db, capture.id, "alone");
  const found = foundOutlines(set);
  const isOne = capture.saidOutline !== null || found.length === 1;
  const outline = isOne ? (part === 1 ? standingOutline(capture.saidOutline, set) : null) : found[part - 1];
  if (!outline) return null;
  const print = isOne && capture.printId !== null ? findPrint(context.db, capture.printId) : null;
  const sheet = print && sheetSize(print);
  const { radial } = outline;
  if (sheet) return { capture, quad: ownQuad(outline, sheet), size: sidePictureSize(sheet), sheetMm: sheet, radial };
  const quad = outline.sheet;
  const [across, down] = [lengthOf(quad, "top") + lengthOf(quad, "bottom"), lengthOf(quad, "left") + lengthOf(quad, "right")];
  const scale = LONG_SIDE_PX / Math.max(across, down);
  const size = { widthPx: Math.max(1, Math.round(across * scale)), heightPx: Math.max(1, Math.round(down * scale)) };
  return { capture, quad, size, sheetMm: null, radial };
}
