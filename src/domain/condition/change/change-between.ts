import type { Quad } from "../../measure/picture.ts";
import type { SizeMm } from "../../measure/size-as-seen.ts";
import type { ColourSheet } from "./colour-sheet.ts";
import { laySheets, type SheetCapture } from "./lay-sheets.ts";
import { type NumberChange, numberChanges } from "./number-changes.ts";
import type { Qualification } from "./qualification.ts";
import { findStructures, type Structure } from "./structures.ts";
import type { Verdict } from "./verdict.ts";

export type QualifiedCapture = SheetCapture & { readonly qualification: Qualification };

/** What two captures of one side of one print tell of how it changed. */
export type Change = {
  readonly numbers: readonly NumberChange[];
  /** in mm of the sheet, as the older capture shows it */
  readonly structures: readonly Structure[];
  readonly untoldStructures: number;
  /** of every structure: they passed the local uncertainty, so it is the captures' own standing that decides */
  readonly structuresVerdict: Verdict;
  readonly sheetMm: SizeMm;
  readonly pictureMm: Quad | null;
  /** shifts still found between the two, mm: the middle one, and the one that a twentieth exceed */
  readonly residualMm: number;
  readonly residual95Mm: number;
};

/** Both captures laid on one grid, for looking at. */
export type LaidPictures = { readonly older: ColourSheet; readonly newer: ColourSheet };

export type ChangeOrRefusal = { readonly change: Change; readonly pictures: LaidPictures } | { readonly refused: string };

/** Holds a newer capture against an older one of the same side of the same print. */
export async function changeBetween(older: QualifiedCapture, newer: QualifiedCapture): Promise<ChangeOrRefusal> {
  const sheets = await laySheets(older, newer);
  if ("refused" in sheets) return sheets;
  const methods = [older.qualification, newer.qualification] as const;
  const { structures, untold } = findStructures(sheets);
  const { sheetMm, pictureMm, residualMm, residual95Mm } = sheets;
  return {
    change: {
      numbers: numberChanges(sheets, methods),
      structures,
      untoldStructures: untold,
      structuresVerdict: methods.includes("unknown") ? "indication" : "changed",
      sheetMm,
      pictureMm,
      residualMm,
      residual95Mm,
    },
    pictures: sheets,
  };
}
