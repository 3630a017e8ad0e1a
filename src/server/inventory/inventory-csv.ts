import { stringify } from "csv-stringify/sync";
import type { InventoryRow } from "#domain/inventory/inventory-row.ts";
import { type Cell, INVENTORY_COLUMNS } from "./inventory-columns.ts";

/** As said to a reader of it (W3C Model for Tabular Data 2015, 5; RFC 4180). */
export const INVENTORY_MEDIA_TYPE = "text/csv; charset=utf-8; header=present";

export type InventoryCsvOptions = {
  /**
   * Puts an apostrophe before cells that spreadsheet programs would run as a formula, and a byte order mark in front, by
   * which they know UTF-8. It changes what is written (an EDTF date such as -0500 too), so it is off unless asked for.
   */
  readonly spreadsheetSafe?: boolean;
};

/** The inventory as CSV: RFC 4180, CRLF, one header row, a cell for each column in every row; without byte order mark unless spreadsheet-safe. */
export function inventoryCsv(rows: readonly InventoryRow[], { spreadsheetSafe = false }: InventoryCsvOptions = {}): string {
  const write = spreadsheetSafe ? (cell: Cell) => safe(text(cell)) : text;
  return stringify(
    rows.map((row) => INVENTORY_COLUMNS.map(({ cell }) => write(cell(row)))),
    {
      header: true,
      columns: INVENTORY_COLUMNS.map(({ name }) => name),
      record_delimiter: "windows",
      bom: spreadsheetSafe,
      quoted_match: /[",\r\n]/,
    },
  );
}

const text = (cell: Cell): string => (cell == null ? "" : String(cell));

/** A cell that begins so is a formula to a spreadsheet program (common practice, no source). */
const safe = (written: string): string => (/^[=+\-@\t\r]/.test(written) ? `'${written}` : written);
