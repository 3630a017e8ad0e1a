import type { Quad } from "../../measure/picture.ts";
import type { SizeMm } from "../../measure/size-as-seen.ts";
import type { ColourSheet } from "./colour-sheet.ts";
import { laySheets, type SheetCapture } from "./lay-sheets.ts";
import { type NumberChange, numberChanges } from "./number-changes.ts";
import type { Qualification } from "./qualification.ts";
import { findStructures, type Structure } from "./structures.ts";
import type { Verdict } from "./verdict.ts";

export type QualifiedCapture = SheetCapture & { readonly qualification: Qualification };

/** A place that passed the local uncertainty: changed, unless something else than the print explains it too. */
export type JudgedStructure = Structure & { readonly verdict: Exclude<Verdict, "within"> };

/** What two captures of one side of one print tell of how it changed. */
export type Change = {
  readonly numbers: readonly NumberChange[];
  /** in mm of the sheet, as the older capture shows it */
  readonly structures: readonly JudgedStructure[];
  readonly untoldStructures: number;
  /** of them all: changed where one of them is */
  readonly structuresVerdict: Verdict;
  /** what the uncertainties rest on */
  readonly qualifications: { readonly older: Qualification; readonly newer: Qualification };
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
  const { structures: found, untold } = findStructures(sheets);
  const structures = found.map((structure) => ({ ...structure, verdict: verdictOnPlace(structure, methods) }));
  const { sheetMm, pictureMm, residualMm, residual95Mm } = sheets;
  return {
    change: {
      numbers: numberChanges(sheets, methods),
      structures,
      untoldStructures: untold,
      structuresVerdict: verdictOnAll(structures),
      qualifications: { older: older.qualification, newer: newer.qualification },
      sheetMm,
      pictureMm,
      residualMm,
      residual95Mm,
    },
    pictures: sheets,
  };
}

const verdictOnPlace = ({ doubt }: Structure, methods: readonly Qualification[]): JudgedStructure["verdict"] =>
  doubt !== null || methods.includes("unknown") ? "indication" : "changed";

function verdictOnAll(structures: readonly JudgedStructure[]): Verdict {
  if (structures.length === 0) return "within";
  return structures.some(({ verdict }) => verdict === "changed") ? "changed" : "indication";
}
