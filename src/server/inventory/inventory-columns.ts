import { PURPOSE_KEYS, type PurposeKey } from "#domain/aim/aim.ts";
import { SIDES, type Side } from "#domain/capture/capture.ts";
import { METHOD_LABELS } from "#domain/capture/method.ts";
import { findingInWords } from "#domain/condition/finding-in-words.ts";
import type { InventoryMaster, InventoryRow, InventoryValue } from "#domain/inventory/inventory-row.ts";
import type { Cell, Column } from "../csv/write-csv.ts";

/** A cell before it is written; null and undefined are empty. */

export type InventoryColumn = Column<InventoryRow>;

/** Several values in one cell (common practice, no source). */
const BETWEEN_VALUES = " | ";

/** The columns of the inventory, in their order. Names are for programs: lower case, with units. */
export const INVENTORY_COLUMNS: readonly InventoryColumn[] = [
  column("object_number", ({ print }) => print.objectNumber),
  column("uuid", ({ print }) => print.uuid),
  column("title", ({ print }) => print.title),
  column("date_edtf", ({ print }) => print.date),
  column("date_earliest", ({ print }) => print.dateEarliest),
  column("date_latest", ({ print }) => print.dateLatest),
  column("date_ground", ({ print }) => print.dateGround),
  column("process", ({ processName }) => processName),
  column("format", ({ formatName }) => formatName),
  column("sheet_width_mm", ({ sheet }) => sheet?.widthMm),
  column("sheet_height_mm", ({ sheet }) => sheet?.heightMm),
  column("sheet_size_basis", ({ sheet }) => sheet?.basis),
  column("sheet_size_source", ({ sheet }) => sheet?.source),
  column("image_width_mm", ({ image }) => image?.widthMm),
  column("image_height_mm", ({ image }) => image?.heightMm),
  column("image_size_basis", ({ image }) => image?.basis),
  column("border_top_mm", ({ print }) => print.borderTopMm),
  column("border_right_mm", ({ print }) => print.borderRightMm),
  column("border_bottom_mm", ({ print }) => print.borderBottomMm),
  column("border_left_mm", ({ print }) => print.borderLeftMm),
  column("thickness_mm", ({ print }) => print.thicknessMm),
  column("orientation", ({ print }) => print.orientation),
  column("place", ({ placePath }) => placePath.join(" › ")),
  column("maker", ({ print }) => print.maker),
  column("people", ({ print }) => print.people.join(BETWEEN_VALUES)),
  column("subjects", ({ print }) => print.subjects.join(BETWEEN_VALUES)),
  column("inscription_front", ({ print }) => print.inscriptionFront),
  column("inscription_back", ({ print }) => print.inscriptionBack),
  column("provenance", ({ print }) => print.provenance),
  column("rights_uri", ({ print }) => print.rightsUri),
  column("credit", ({ print }) => print.credit),
  column("value_amount", ({ print }) => print.valueAmount),
  column("value_currency", ({ print }) => print.valueCurrency),
  column("significance", ({ print }) => print.significance),
  column("significance_note", ({ print }) => print.significanceNote),
  column("date_processed_edtf", ({ print }) => print.processedOn),
  column("cautions", ({ cautions }) => cautions.join(BETWEEN_VALUES)),
  column("condition_grade", ({ condition }) => condition?.grade),
  column("condition_surveyed_on", ({ condition }) => condition?.surveyedOn),
  column("findings", ({ condition }) => condition?.findings.map(findingInWords).join(BETWEEN_VALUES)),
  column("active_findings", ({ condition }) =>
    condition?.findings
      .filter(({ activity }) => activity === "active")
      .map(findingInWords)
      .join(BETWEEN_VALUES),
  ),
  column("captures", ({ captureCount }) => captureCount),
  ...SIDES.flatMap((side) => PURPOSE_KEYS.flatMap((purposeKey) => masterColumns(side, purposeKey))),
  column("recapture_needed", ({ recaptureNeeded }) => (recaptureNeeded === null ? null : recaptureNeeded ? "yes" : "no")),
  column("recapture_reasons", ({ recaptureReasons }) => recaptureReasons.join(BETWEEN_VALUES)),
  column("notes", ({ print }) => print.notes),
  column("created_at", ({ print }) => print.createdAt),
  column("updated_at", ({ print }) => print.updatedAt),
];

/** The front goes without saying: preservation_master_file, back_preservation_master_file. */
function masterColumns(side: Side, purposeKey: PurposeKey): InventoryColumn[] {
  const prefix = `${side === "back" ? "back_" : ""}${purposeKey.replaceAll("-", "_")}`;
  const ofMaster = (name: string, cell: (master: InventoryMaster) => Cell): InventoryColumn =>
    column(`${prefix}_${name}`, ({ masters }) => {
      const master = masters.find((each) => each.side === side && each.purposeKey === purposeKey);
      return master ? cell(master) : null;
    });
  const valueColumns = (name: string, of: (master: InventoryMaster) => InventoryValue | null | undefined, decimals: number) => [
    ofMaster(name, (master) => of(master)?.value.toFixed(decimals)),
    ofMaster(`${name}_bound`, (master) => of(master)?.bound),
  ];
  return [
    ofMaster("file", ({ file }) => file?.fileName),
    ofMaster("sha256", ({ file }) => file?.sha256),
    ofMaster("method", ({ file }) => (file?.method ? METHOD_LABELS[file.method] : null)),
    ...valueColumns("sampling_ppi", ({ file }) => file?.samplingPpi, 0),
    ...valueColumns("sfr50_cy_per_mm", ({ file }) => file?.sfr50CyPerMm, 2),
    ofMaster("decided_by", ({ decidedBy }) => decidedBy),
    ofMaster("why", ({ sentence }) => sentence),
  ];
}

function column(name: string, cell: InventoryColumn["cell"]): InventoryColumn {
  return { name, cell };
}
