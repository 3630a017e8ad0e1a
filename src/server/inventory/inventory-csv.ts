import type { InventoryRow } from "#domain/inventory/inventory-row.ts";
import { type CsvOptions, writeCsv } from "../csv/write-csv.ts";
import { INVENTORY_COLUMNS } from "./inventory-columns.ts";

/** The inventory as CSV, a row for each print. */
export const inventoryCsv = (rows: readonly InventoryRow[], options: CsvOptions = {}): string => writeCsv(INVENTORY_COLUMNS, rows, options);
