import type { DelimiterName, LoggerMapping } from "./logger-mapping.ts";
import { DATE_ORDERS, type DateOrder, readStamp } from "./read-stamp.ts";

/** How a file seems to be written. What the first rows do not tell is left out: the keeper must say it. */
export type GuessedMapping = Partial<LoggerMapping> & { readonly headerRow: readonly string[] };

/** The delimiter that cuts most of the lines into the same number of columns, two at least. */
export function guessDelimiter(lines: readonly string[]): DelimiterName {
  const counts = (sign: string) => lines.map((line) => line.split(sign).length - 1).filter((count) => count > 0);
  const evenness = (sign: string) => {
    const found = counts(sign);
    const usual = found.toSorted((a, b) => a - b)[found.length >> 1] ?? 0;
    return found.filter((count) => count === usual).length;
  };
  const [semicolon, tab, comma] = [evenness(";"), evenness("\t"), evenness(",")];
  if (tab > 0 && tab >= semicolon && tab >= comma / 2) return "tab";
  // decimal commas cut a line as evenly as delimiters do
  return semicolon > 0 && semicolon >= comma / 2 ? "semicolon" : "comma";
}

/** @param rows the first rows, cut into cells, from the very first on */
export function guessMapping(rows: readonly (readonly string[])[]): GuessedMapping {
  const first = rows.findIndex((cells) => stampColumn(cells) !== null);
  if (first === -1) return { headerRow: [] };
  const data = rows.slice(first);
  const at = stampColumn(data[0] ?? []) ?? { column: 0, clock: null };
  const headerRow = first === 0 ? [] : (rows[first - 1] ?? []);
  const stamps = data.map((cells) => (at.clock === null ? (cells[at.column] ?? "") : `${cells[at.column]} ${cells[at.clock]}`));
  // rows that are no reading, such as a closing line, say nothing of the order
  const read = stamps.filter((stamp) => DATE_ORDERS.some((order) => readStamp(stamp, order)));
  const orders = DATE_ORDERS.filter((order) => read.every((stamp) => readStamp(stamp, order)));
  const named = (words: RegExp) => headerRow.findIndex((name, index) => words.test(name) && index !== at.column && index !== at.clock);
  const temperature = named(/temp|celsius|fahrenheit|°c|°f|^t$/i);
  const humidity = named(/humid|feucht|\brh\b|r\.h\.|hum\b|%/i);
  const cells = data.flatMap((row) => [row[temperature] ?? "", row[humidity] ?? ""]);
  const order = theOrder(orders, read);
  return {
    headerRow,
    firstRow: first + 1,
    timeColumn: at.column + 1,
    clockColumn: at.clock === null ? null : at.clock + 1,
    ...(order && { dateOrder: order }),
    ...(temperature !== -1 && { temperatureColumn: temperature + 1 }),
    ...(humidity !== -1 && humidity !== temperature && { humidityColumn: humidity + 1 }),
    temperatureUnit: /°\s*f|fahrenheit|\(f\)|\bf$/i.test(headerRow[temperature] ?? "") ? "fahrenheit" : "celsius",
    decimalSign: cells.some((cell) => /\d,\d/.test(cell)) && !cells.some((cell) => /\d\.\d/.test(cell)) ? "comma" : "point",
  };
}

/** 3/4/2026 can be two days: it is told only by a file in which one order alone fits. */
const theOrder = (orders: readonly DateOrder[], stamps: readonly string[]): DateOrder | null => {
  const isYearFirst = stamps.every((stamp) => /^\s*\d{4}/.test(stamp));
  if (isYearFirst) return orders.includes("year-month-day") ? "year-month-day" : null;
  const others = orders.filter((order) => order !== "year-month-day");
  return others.length === 1 ? (others[0] ?? null) : null;
};

function stampColumn(cells: readonly string[]): { column: number; clock: number | null } | null {
  const column = cells.findIndex((cell) => DATE_ORDERS.some((order) => readStamp(cell, order)));
  if (column === -1) return null;
  const hasClock = /\d[:.]\d{2}/.test((cells[column] ?? "").replace(/^\s*\S+/, ""));
  const next = cells[column + 1] ?? "";
  return { column, clock: !hasClock && !/T/.test(cells[column] ?? "") && /^\s*\d{1,2}:\d{2}/.test(next) ? column + 1 : null };
}
