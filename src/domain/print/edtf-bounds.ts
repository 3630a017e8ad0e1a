import { daysInMonth, sortableDay } from "./calendar.ts";
import type { Edtf, EdtfDate, EdtfEnd, EdtfMember, EdtfYear } from "./edtf-grammar.ts";

/** First and last day a date can mean, as sortable text; null where it is open or unknown. */
export type Bounds = { readonly earliest: string | null; readonly latest: string | null };

/** Why a text of the right form is no date. */
export type Impossible = "no-such-day" | "ends-before-it-begins";

/**
 * The bounds for searching and sorting. A qualifier does not move them. The specification gives
 * seasons no months, so a season reaches over its whole year, and so do quarters and halves.
 */
export function boundsOf(edtf: Edtf): Bounds | Impossible {
  if (edtf.kind === "interval") return spanBounds(edtf.from, edtf.to);
  if (edtf.kind === "set") return setBounds(edtf.members);
  return dateBounds(edtf.date) ?? "no-such-day";
}

function spanBounds(from: EdtfEnd | null, to: EdtfEnd | null): Bounds | Impossible {
  const start = isDate(from) ? dateBounds(from) : NO_BOUNDS;
  const end = isDate(to) ? dateBounds(to) : NO_BOUNDS;
  if (!start || !end) return "no-such-day";
  if (start.earliest !== null && end.latest !== null && start.earliest > end.latest) return "ends-before-it-begins";
  return { earliest: start.earliest, latest: end.latest };
}

function setBounds(members: readonly EdtfMember[]): Bounds | Impossible {
  const earliest: (string | null)[] = [];
  const latest: (string | null)[] = [];
  for (const member of members) {
    const bounds = spanBounds(member.from, member.to);
    if (typeof bounds === "string") return bounds;
    earliest.push(bounds.earliest);
    latest.push(bounds.latest);
  }
  return { earliest: outermost(earliest, (a, b) => a < b), latest: outermost(latest, (a, b) => a > b) };
}

const NO_BOUNDS: Bounds = { earliest: null, latest: null };

const isDate = (end: EdtfEnd | null): end is EdtfDate => typeof end === "object" && end !== null;

/** One open side opens the whole set. */
function outermost(days: readonly (string | null)[], beats: (a: string, b: string) => boolean): string | null {
  let outer = days[0] ?? null;
  for (const day of days) {
    if (day === null || outer === null) return null;
    if (beats(day, outer)) outer = day;
  }
  return outer;
}

/** Null when no day has these digits. */
function dateBounds(date: EdtfDate): { earliest: string; latest: string } | null {
  const years = yearsOf(date.year);
  const months = numbersUpTo(12, date.month?.digits);
  const days = numbersUpTo(31, date.day?.digits);
  if (months.length === 0 || days.length === 0) return null;
  const earliest = firstDay(years, months, days);
  const latest = lastDay(years, months, days);
  return earliest !== null && latest !== null ? { earliest, latest } : null;
}

function firstDay(years: Years, months: readonly number[], days: readonly number[]): string | null {
  for (let year = years.least; year <= years.most; year++) {
    if (!years.fits(year)) continue;
    for (const month of months) {
      const day = days[0];
      if (day !== undefined && day <= daysInMonth(year, month)) return sortableDay(year, month, day);
    }
  }
  return null;
}

function lastDay(years: Years, months: readonly number[], days: readonly number[]): string | null {
  for (let year = years.most; year >= years.least; year--) {
    if (!years.fits(year)) continue;
    for (const month of months.toReversed()) {
      const day = days.findLast((each) => each <= daysInMonth(year, month));
      if (day !== undefined) return sortableDay(year, month, day);
    }
  }
  return null;
}

function numbersUpTo(most: number, pattern: string | undefined): number[] {
  const all = Array.from({ length: most }, (_, place) => place + 1);
  return pattern === undefined ? all : all.filter((value) => matches(pattern, String(value).padStart(2, "0")));
}

type Years = { readonly least: number; readonly most: number; readonly fits: (year: number) => boolean };

function yearsOf(year: EdtfYear): Years {
  const unsure = year.significant === null ? "" : year.digits.slice(year.significant);
  const pattern = unsure === "" ? year.digits : year.digits.slice(0, year.significant ?? 0) + "X".repeat(unsure.length);
  const low = Number(pattern.replaceAll("X", "0"));
  const high = Number(pattern.replaceAll("X", "9"));
  const fits = (value: number) => matches(pattern, String(Math.abs(value)).padStart(4, "0"));
  // Minus nought is not a year: -000X begins with -0009 and ends with -0001.
  return year.negative ? { least: -high, most: Math.min(-low, -1), fits } : { least: low, most: high, fits };
}

const matches = (pattern: string, digits: string): boolean =>
  pattern.length === digits.length && [...pattern].every((letter, place) => letter === "X" || letter === digits[place]);
