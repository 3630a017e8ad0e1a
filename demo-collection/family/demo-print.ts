import type { Box, PrintDrawing } from "../print-drawing.ts";

/** A print of the demo: the record a keeper would have typed, and the sheet itself. */
export type DemoPrint = {
  readonly objectNumber: string;
  /** key of the place it is kept in */
  readonly place: string;
  readonly fields: Readonly<Record<string, string>>;
  readonly people?: readonly string[];
  readonly subjects?: readonly string[];
  readonly drawing: PrintDrawing;
};

/** An image in the middle of a sheet. */
export function centred(sheetWidthMm: number, sheetHeightMm: number, widthMm: number, heightMm: number): Box {
  return { leftMm: (sheetWidthMm - widthMm) / 2, topMm: (sheetHeightMm - heightMm) / 2, widthMm, heightMm };
}

export const IN_COPYRIGHT = "http://rightsstatements.org/vocab/InC/1.0/";
export const UNDETERMINED = "http://rightsstatements.org/vocab/UND/1.0/";
export const NO_KNOWN_COPYRIGHT = "http://rightsstatements.org/vocab/NKC/1.0/";
