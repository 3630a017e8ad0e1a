import type { Side } from "#domain/capture/capture.ts";
import { type SidePictureSize, sidePictureSize } from "#domain/condition/side-picture.ts";
import { foundOutlines, standingOutline } from "#domain/measure/kept-outlines.ts";
import { ownQuad } from "#domain/measure/outline/own-quad.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { type PrintSize, sheetSize } from "#domain/print/dimensions.ts";
import type { Print } from "#domain/print/print.ts";
import { type CaptureWithOriginal, listCapturesOfPrint } from "#drizzle/queries/captures.ts";
import { listChoicesOfPrint } from "#drizzle/queries/choices.ts";
import { findMeasureSet } from "#drizzle/queries/measures.ts";
import type { Context } from "../context.ts";

/** What a side is shown by, straightened, and where it lies in that capture. */
export type SideToShow = {
  readonly side: Side;
  readonly sheet: PrintSize;
  readonly capture: CaptureWithOriginal;
  readonly quad: Quad;
  readonly size: SidePictureSize;
};

/** The master of the first purpose, else the newest capture in which the sheet was found; or why none will do, in words. */
export function sideToShow(context: Context, print: Print, side: Side): SideToShow | { readonly absent: string } {
  const sheet = sheetSize(print);
  if (!sheet)
    return { absent: "The size of the sheet is not known: give it, or the format, in the record, so that places can be told in mm." };
  const captures = listCapturesOfPrint(context.db, print.id).filter((capture) => capture.side === side);
  if (captures.length === 0) return { absent: `There is no capture of the ${side}.` };
  const masters = listChoicesOfPrint(context.db, print.id).filter((choice) => choice.side === side && choice.captureId !== null);
  const masterId = masters[0]?.captureId;
  const rank = ({ id }: CaptureWithOriginal) => (id === masterId ? Number.POSITIVE_INFINITY : id);
  for (const capture of captures.toSorted((a, b) => (rank(b) > rank(a) ? 1 : -1))) {
    const set = findMeasureSet(context.db, capture.id, "alone");
    const outline = standingOutline(capture.saidOutline, set);
    // two prints in one frame: which of them it is, nobody has said yet
    if (outline && (capture.saidOutline || foundOutlines(set).length === 1))
      return { side, sheet, capture, quad: ownQuad(outline, sheet), size: sidePictureSize(sheet) };
  }
  return { absent: `The print's outline was not found in any capture of the ${side}, so places on it cannot be shown.` };
}

export const canBeShown = (shown: SideToShow | { readonly absent: string }): shown is SideToShow => "quad" in shown;
