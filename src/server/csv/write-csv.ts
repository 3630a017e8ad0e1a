import { stringify } from "csv-stringify/sync";

/** As said to a reader of it (W3C Model for Tabular Data 2015, 5; RFC 4180). */
export const CSV_MEDIA_TYPE = "text/csv; charset=utf-8; header=present";

export type Cell = string | number | null | undefined;
export type Column<Row> = { readonly name: string; readonly cell: (row: Row) => Cell };

export type CsvOptions = {
  /**
   * Puts an apostrophe before cells that spreadsheet programs would run as a formula, and a byte order mark in front, by
   * which they know UTF-8. It changes what is written (an EDTF date such as -0500 too), so it is off unless asked for.
   */
  readonly spreadsheetSafe?: boolean;
};

/** Rows as CSV: RFC 4180, CRLF, one header row, a cell for each column in every row; without byte order mark unless spreadsheet-safe. */
export function writeCsv<Row>(columns: readonly Column<Row>[], rows: readonly Row[], { spreadsheetSafe = false }: CsvOptions = {}): string {
  const write = spreadsheetSafe ? (cell: Cell) => safe(text(cell)) : text;
  return stringify(
    rows.map((row) => columns.map(({ cell }) => write(cell(row)))),
    {
      header: true,
      columns: columns.map(({ name }) => name),
      record_delimiter: "windows",
      bom: spreadsheetSafe,
      // a spreadsheet program that parts cells at semicolons or tabs must find none outside quotes
      quoted_match: spreadsheetSafe ? /[",;\t\r\n]/ : /[",\r\n]/,
    },
  );
}

const text = (cell: Cell): string => (cell == null ? "" : String(cell));

/**
 * A cell that begins so is a formula to a spreadsheet program (=, +, -, @, tab and NUL: OWASP ASVS 5.0, 1.2.10; line ends and the wide forms
 * that such programs take for the narrow ones: common practice, no source).
 */
const safe = (written: string): string => (/^[=+\-@\t\r\n\0＝＋－＠]/.test(written) ? `'${written}` : written);
