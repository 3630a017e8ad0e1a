import { PURPOSE_KEYS, type PurposeKey } from "#domain/aim/aim.ts";
import { METHOD_LABELS } from "#domain/capture/method.ts";
import type { InventoryMaster, InventoryRow } from "#domain/inventory/inventory-row.ts";

/** A cell before it is written; null and undefined are empty. */
export type Cell = string | number | null | undefined;

export type InventoryColumn = { readonly name: string; readonly cell: (row: InventoryRow) => Cell };

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
  column("process", ({ processName }) => processName),
  column("format", ({ formatName }) => formatName),
  column("sheet_width_mm", ({ sheet }) => sheet?.widthMm),
  column("sheet_height_mm", ({ sheet }) => sheet?.heightMm),
  column("sheet_size_basis", ({ sheet }) => sheet?.basis),
  column("sheet_size_source", ({ sheet }) => sheet?.source),
  column("image_width_mm", ({ image }) => image?.widthMm),
  column("image_height_mm", ({ image }) => image?.heightMm),
  column("image_size_basis", ({ image }) => image?.basis),
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
  column("captures", ({ captureCount }) => captureCount),
  ...PURPOSE_KEYS.flatMap(masterColumns),
  column("recapture_needed", ({ recaptureReasons }) => (recaptureReasons.length > 0 ? "yes" : "no")),
  column("recapture_reasons", ({ recaptureReasons }) => recaptureReasons.join(BETWEEN_VALUES)),
  column("notes", ({ print }) => print.notes),
  column("created_at", ({ print }) => print.createdAt),
  column("updated_at", ({ print }) => print.updatedAt),
];

function masterColumns(purposeKey: PurposeKey): InventoryColumn[] {
  const prefix = purposeKey.replaceAll("-", "_");
  const ofMaster = (name: string, cell: (master: InventoryMaster) => Cell): InventoryColumn =>
    column(`${prefix}_${name}`, ({ masters }) => {
      const master = masters.find((each) => each.purposeKey === purposeKey);
      return master ? cell(master) : null;
    });
  return [
    ofMaster("file", ({ file }) => file?.fileName),
    ofMaster("sha256", ({ file }) => file?.sha256),
    ofMaster("method", ({ file }) => (file?.method ? METHOD_LABELS[file.method] : null)),
    ofMaster("sampling_ppi", ({ file }) => rounded(file?.samplingPpi, 0)),
    ofMaster("sfr50_cy_per_mm", ({ file }) => rounded(file?.sfr50CyPerMm, 2)),
    ofMaster("decided_by", ({ decidedBy }) => decidedBy),
    ofMaster("why", ({ sentence }) => sentence),
  ];
}

const rounded = (value: number | null | undefined, decimals: number): Cell => (value == null ? null : value.toFixed(decimals));

function column(name: string, cell: InventoryColumn["cell"]): InventoryColumn {
  return { name, cell };
}
