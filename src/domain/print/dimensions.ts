import { findFormat } from "./format.ts";
import type { Print } from "./print.ts";

/** The size a scale can be read from, and how far it can be trusted. */
export type PrintSize = {
  readonly widthMm: number;
  readonly heightMm: number;
  /** half-width of the interval the true size lies in */
  readonly toleranceMm: number;
  readonly basis: "measured" | "nominal";
  /** who says so: the keeper's ruler, or the published source of the nominal size */
  readonly source: string;
};

/** A ruler read to half a millimetre on both ends (common practice, no source). */
const RULER_TOLERANCE_MM = 0.5;

type Sized = Pick<Print, "formatId" | "sheetWidthMm" | "sheetHeightMm" | "imageWidthMm" | "imageHeightMm" | "orientation">;

/** Measured sheet size before nominal; null when neither is known. Turned to the print's orientation. */
export function sheetSize(print: Sized): PrintSize | null {
  if (print.sheetWidthMm !== null && print.sheetHeightMm !== null) return measured(print.sheetWidthMm, print.sheetHeightMm);
  const format = print.formatId === null ? null : findFormat(print.formatId);
  return format ? nominal(format.sheetWidthMm, format.sheetHeightMm, format, print.orientation) : null;
}

/** Measured image size before nominal; null when neither is known. Turned to the print's orientation. */
export function imageSize(print: Sized): PrintSize | null {
  if (print.imageWidthMm !== null && print.imageHeightMm !== null) return measured(print.imageWidthMm, print.imageHeightMm);
  const format = print.formatId === null ? null : findFormat(print.formatId);
  if (!format || format.imageWidthMm === null || format.imageHeightMm === null) return null;
  return nominal(format.imageWidthMm, format.imageHeightMm, format, print.orientation);
}

const measured = (widthMm: number, heightMm: number): PrintSize => ({
  widthMm,
  heightMm,
  toleranceMm: RULER_TOLERANCE_MM,
  basis: "measured",
  source: "measured by the keeper",
});

function nominal(
  widthMm: number,
  heightMm: number,
  format: { toleranceMm: number; source: string; turnable: boolean; sheetWidthMm: number; sheetHeightMm: number },
  orientation: Print["orientation"],
): PrintSize {
  const isLandscape = format.sheetWidthMm > format.sheetHeightMm;
  const turned = format.turnable && ((orientation === "landscape" && !isLandscape) || (orientation === "portrait" && isLandscape));
  return {
    widthMm: turned ? heightMm : widthMm,
    heightMm: turned ? widthMm : heightMm,
    toleranceMm: format.toleranceMm,
    basis: "nominal",
    source: format.source,
  };
}
