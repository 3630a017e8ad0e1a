/** The orders in which loggers write a date. */
export const DATE_ORDERS = ["year-month-day", "day-month-year", "month-day-year"] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];

const STAMP =
  /^\s*(\d{1,4})[-./](\d{1,2})[-./](\d{1,4})(?:[T,]?\s*(\d{1,2})[:.](\d{2})(?:[:.](\d{2})(?:[.,]\d+)?)?\s*([AaPp]\.?[Mm]\.?)?)?\s*(Z|[+-]\d{2}:?\d{2})?\s*$/;

/** What a stamp says: seconds of the clock that wrote it, and how far it says that clock stands from UTC (null: it does not say). */
export type Stamp = { readonly localSeconds: number; readonly offsetSeconds: number | null };

/**
 * Reads a date with time, such as 2026-03-01 14:05, 01.03.2026 14:05:00 or 3/1/2026 2:05 PM. A date alone is midnight. Years of two
 * figures are of this century. Null where it is no such date, or a day that no calendar has.
 */
export function readStamp(text: string, order: DateOrder): Stamp | null {
  const found = STAMP.exec(text);
  if (!found) return null;
  const [, a = "", b = "", c = "", hours = "0", minutes = "0", seconds = "0", half, zone] = found;
  const [yearText, monthText, dayText] = order === "year-month-day" ? [a, b, c] : order === "day-month-year" ? [c, b, a] : [c, a, b];
  if (yearText.length === 3 || monthText.length > 2 || dayText.length > 2) return null;
  if (yearText.length === 1) return null;
  const year = yearText.length === 2 ? 2000 + Number(yearText) : Number(yearText);
  const month = Number(monthText);
  const day = Number(dayText);
  const hour = hourOf(Number(hours), half);
  if (hour === null || Number(minutes) > 59 || Number(seconds) > 59) return null;
  const days = Date.UTC(year, month - 1, day) / 86_400_000;
  const date = new Date(days * 86_400_000);
  if (date.getUTCFullYear() !== year || date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day) return null;
  return {
    localSeconds: days * 86_400 + hour * 3600 + Number(minutes) * 60 + Number(seconds),
    offsetSeconds: zone === undefined ? null : offsetOf(zone),
  };
}

function hourOf(hour: number, half: string | undefined): number | null {
  if (half === undefined) return hour <= 23 ? hour : null;
  if (hour < 1 || hour > 12) return null;
  return (hour % 12) + (/^p/i.test(half) ? 12 : 0);
}

function offsetOf(zone: string): number {
  if (zone === "Z") return 0;
  const figures = zone.slice(1).replace(":", "");
  return (zone.startsWith("-") ? -1 : 1) * (Number(figures.slice(0, 2)) * 3600 + Number(figures.slice(2)) * 60);
}
