import { daysInMonth, twoDigits } from "./calendar.ts";
import { MONTHS } from "./edtf-words.ts";

/** One date as people say it: EDTF without its qualifier, a second date where it is a stretch, the qualifier. */
export type Spoken = { readonly from: string; readonly to: string | null; readonly mark: "" | "~" | "?" | "%" };

const ABOUT = /^(?:about|around|approximately|approx\.?|circa|ca\.?|c\.?|roughly|~) ?(?=\S)/;
const PERHAPS = /^(?:perhaps|possibly|probably|maybe|likely) /;
const IN_DOUBT = / ?(?:\(\?\)|\?)$/;
const ROUGHLY = / ?(?:\((?:approx\.?|approximate|circa)\)|~)$/;

/** @param text in small letters, e.g. "c. 1950", "late 1860s", "june 12, 1978"; null when it is not understood */
export function readSpokenDate(text: string): Spoken | null {
  let rest = text.trim();
  const perhaps = PERHAPS.test(rest) || IN_DOUBT.test(rest);
  rest = rest.replace(PERHAPS, "").replace(IN_DOUBT, "");
  const about = ABOUT.test(rest) || ROUGHLY.test(rest);
  rest = rest
    .replace(ABOUT, "")
    .replace(ROUGHLY, "")
    .replace(/^(?:in|on|the) /, "");
  const stretch = readStretch(rest);
  if (stretch) return { ...stretch, mark: perhaps ? "%" : "~" };
  const from = readPlain(rest);
  if (from === null) return null;
  return { from, to: null, mark: perhaps ? (about ? "%" : "?") : about ? "~" : "" };
}

/**
 * The date just before or after, of the same precision.
 * @param date a year, decade or century, month or day in EDTF without qualifier
 */
export function neighbour(date: string, step: -1 | 1): string | null {
  const parts = /^(\d{2}[\dX]{2})(?:-(\d{2})(?:-(\d{2}))?)?$/.exec(date);
  if (!parts?.[1]) return null;
  const year = Number(parts[1].replaceAll("X", step < 0 ? "0" : "9"));
  const month = Number(parts[2] ?? 0);
  const day = Number(parts[3] ?? 0);
  if (!parts[2]) return fourDigits(year + step);
  if (month > MONTHS.length) return fourDigits(step < 0 ? year - 1 : year + 1);
  const nextMonth = { year: month + step < 1 ? year - 1 : month + step > 12 ? year + 1 : year, month: ((month + step + 11) % 12) + 1 };
  if (!parts[3]) return `${fourDigits(nextMonth.year)}-${twoDigits(nextMonth.month)}`;
  if (day + step >= 1 && day + step <= daysInMonth(year, month)) return `${fourDigits(year)}-${twoDigits(month)}-${twoDigits(day + step)}`;
  const edge = step > 0 ? 1 : daysInMonth(nextMonth.year, nextMonth.month);
  return `${fourDigits(nextMonth.year)}-${twoDigits(nextMonth.month)}-${twoDigits(edge)}`;
}

/** Years of a decade and of a century that people call early, middle and late (common practice, no source). */
const STRETCHES: Readonly<Record<string, { readonly decade: readonly [number, number]; readonly century: readonly [number, number] }>> = {
  early: { decade: [0, 4], century: [0, 33] },
  mid: { decade: [3, 7], century: [34, 66] },
  middle: { decade: [3, 7], century: [34, 66] },
  late: { decade: [5, 9], century: [67, 99] },
};

function readStretch(text: string): { from: string; to: string } | null {
  const parts = /^(early|mid|middle|late)[ –-](?:of )?(?:the )?(.+)$/.exec(text);
  const share = STRETCHES[parts?.[1] ?? ""];
  const whole = parts?.[2] === undefined ? null : readPlain(parts[2]);
  if (!share || whole === null || !/^\d{2}(\dX|XX)$/.test(whole)) return null;
  const first = Number(whole.replaceAll("X", "0"));
  const [from, to] = whole.endsWith("XX") ? share.century : share.decade;
  return { from: fourDigits(first + from), to: fourDigits(first + to) };
}

function readPlain(text: string): string | null {
  for (const [form, write] of FORMS) {
    const parts = form.exec(text);
    if (parts) return write(parts[1] ?? "", parts[2] ?? "", parts[3] ?? "");
  }
  return null;
}

/** Forms of a date, each with how it is written in EDTF. */
const FORMS: readonly (readonly [RegExp, (a: string, b: string, c: string) => string | null])[] = [
  [/^(?:year )?(\d{4})$/, (year) => year],
  [/^(\d{3})[-–u]\??$/, (decade) => `${decade}X`],
  [/^(\d{3})0'?s$/, (decade) => `${decade}X`],
  [/^(\d{3})x$/, (decade) => `${decade}X`],
  [/^(\d{2})xx$/, (century) => `${century}XX`],
  [/^(\d{1,2})(?:st|nd|rd|th) (?:century|c\.?)$/, (number) => `${twoDigits(Number(number) - 1)}XX`],
  [/^(spring|summer|autumn|fall|winter)(?: of)?,? (\d{4})$/, (season, year) => `${year}-${SEASON_CODES[season]}`],
  [/^(\d{4}),? (spring|summer|autumn|fall|winter)$/, (year, season) => `${year}-${SEASON_CODES[season]}`],
  [/^([a-z]{3,9})\.?(?: of)?,? (\d{4})$/, (month, year) => joined(year, monthNumber(month), null)],
  [/^(\d{4}),? ([a-z]{3,9})\.?$/, (year, month) => joined(year, monthNumber(month), null)],
  [/^(\d{1,2})(?:st|nd|rd|th)?\.?(?: of)? ([a-z]{3,9})\.?,? (\d{4})$/, (day, month, year) => joined(year, monthNumber(month), day)],
  [/^([a-z]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4})$/, (month, day, year) => joined(year, monthNumber(month), day)],
  [/^(\d{4}),? ([a-z]{3,9})\.? (\d{1,2})$/, (year, month, day) => joined(year, monthNumber(month), day)],
  [/^(\d{4})[-–./](\d{1,2})$/, (year, month) => joined(year, Number(month), null)],
  [/^(\d{4})[-–./](\d{1,2})[-–./](\d{1,2})$/, (year, month, day) => joined(year, Number(month), day)],
  [/^([12]\d{3})([01]\d)([0-3]\d)$/, (year, month, day) => joined(year, Number(month), day)],
];

const SEASON_CODES: Readonly<Record<string, number>> = { spring: 21, summer: 22, autumn: 23, fall: 23, winter: 24 };

function monthNumber(word: string): number | null {
  const place = MONTHS.findIndex((month) => month.toLowerCase() === word || month.toLowerCase().slice(0, 3) === word);
  if (place >= 0) return place + 1;
  return word === "sept" ? 9 : null;
}

function joined(year: string, month: number | null, day: string | null): string | null {
  if (month === null) return null;
  return day === null ? `${year}-${twoDigits(month)}` : `${year}-${twoDigits(month)}-${twoDigits(Number(day))}`;
}
const fourDigits = (value: number): string => String(value).padStart(4, "0");
