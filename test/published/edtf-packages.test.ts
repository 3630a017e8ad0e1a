import { parse } from "@edtf-ts/core";
import edtf from "edtf";
import { expect, test } from "vitest";
import { sortableDay } from "#domain/print/calendar.ts";
import { EDGES, LEVEL_0, LEVEL_1, LEVEL_2, NOT_DATES } from "../fixtures/edtf-cases.ts";

/*
 * Two open-source readers of EDTF, asked the same questions as ours. Where one of them answers otherwise
 * than the table of cases, the case stands below with the reason why we keep the table. The lists are
 * exact: a new disagreement fails, and so does an entry that no longer disagrees.
 */
const BEYOND = "its bounds end with the range of a JavaScript Date";
const MONTHS_GIVEN = "it gives seasons and parts of a year months, which the specification does not";
const SURE_DIGITS = "it leaves significant digits out of the bounds";
const LEAP = "it moves a 29 February that does not exist to March, or loses one that does";
const BLANKS = "it lets blanks pass";
const NO_DATE = "it takes an interval without any date";
const SHORT = "it takes other texts of digits (ISO decades and centuries, moments in milliseconds) for years";
const MARKED_X = "it refuses unspecified digits with a qualifier, each of which the specification allows at the end of a date";
const MINUS_X = "it loses the sign of unspecified years, or counts them from the wrong end";
const YEAR_0 = "it takes year 0000 for 1900";
const SET_END = "its sets end with the beginning of their last range";
const NARROW = "it takes neither qualifier nor interval with this kind of date, which the specification does not forbid";
const LENIENT = "it is laxer than the grammar of the specification";

/** edtf 4.11.1 */
const EDTF_WRONG: Readonly<Record<string, string>> = {
  "1985-04-12T23:20:30-04": "its bounds are of the moment in universal time, not of the day that is written",
  Y170000002: BEYOND,
  "Y-170000002": BEYOND,
  "Y-17E7": BEYOND,
  Y171010000S3: BEYOND,
  Y3388E2S3: BEYOND,
  "2001-21": MONTHS_GIVEN,
  "2001-25": MONTHS_GIVEN,
  "2001-34": MONTHS_GIVEN,
  "2001-41": MONTHS_GIVEN,
  "1950S2": SURE_DIGITS,
  "1950S3": SURE_DIGITS,
  "-1950S2": SURE_DIGITS,
  "1950S5": SURE_DIGITS,
  "[1667,1668,1670..1672]": SET_END,
  "{1667,1668,1670..1672}": SET_END,
  "0000-02-29": LEAP,
  "1900-02-29": LEAP,
  "1985-02-29": LEAP,
  "1X85-02-29": LEAP,
  "198X-02-29": LEAP,
  "20XX-02-29": LEAP,
  "201X?": MARKED_X,
  "20XX~": MARKED_X,
  "156X~/2004": MARKED_X,
  "-XXXX": MINUS_X,
  "-000X": MINUS_X,
  "[1985?,1986~]": NARROW,
  "[1984~..1986]": NARROW,
  "Y171010000?": NARROW,
  "Y170000002/Y170000003": NARROW,
  "2001-21~": NARROW,
  "2001-21/2003": NARROW,
  "2001-24/2001-21": NARROW,
  "201X-21": NARROW,
  "[1985, 1986]": BLANKS,
  "{1667, 1668}": BLANKS,
  "85": SHORT,
  "198": SHORT,
  "20010": SHORT,
  "19850412": SHORT,
  "/": NO_DATE,
  "../..": NO_DATE,
  "../": NO_DATE,
  "1985-04-12T24:00:00": LENIENT,
  "1985-04-12T23:20": LENIENT,
  "1985-04-12T23:20:30/1986": LENIENT,
  Y17E1: LENIENT,
  "[1672..1670]": LENIENT,
};

/** @edtf-ts/core 0.4.2 */
const EDTF_TS_WRONG: Readonly<Record<string, string>> = {
  Y170000002: BEYOND,
  "Y-170000002": BEYOND,
  "Y-17E7": BEYOND,
  Y171010000S3: BEYOND,
  Y3388E2S3: BEYOND,
  "Y171010000?": BEYOND,
  "Y170000002/Y170000003": BEYOND,
  "2001-21": MONTHS_GIVEN,
  "2001-25": MONTHS_GIVEN,
  "2001-34": MONTHS_GIVEN,
  "2001-41": MONTHS_GIVEN,
  "2001-21~": MONTHS_GIVEN,
  "1950S2": SURE_DIGITS,
  "1950S3": SURE_DIGITS,
  "-1950S2": SURE_DIGITS,
  "1950S5": SURE_DIGITS,
  Y171010000S10: SURE_DIGITS,
  "0000": YEAR_0,
  "-0000": YEAR_0,
  XXXX: YEAR_0,
  "XXXX-12-XX": YEAR_0,
  "0000-02-29": YEAR_0,
  "198X-02-29": LEAP,
  "20XX-02-29": LEAP,
  "1X85-02-29": LEAP,
  "2001-02-3X": LEAP,
  "-1X32": MINUS_X,
  "-XXXX": MINUS_X,
  "-000X": MINUS_X,
  "2001-21/2003": NARROW,
  "2001-24/2001-21": NARROW,
  "201X-21": NARROW,
  "1985 ": BLANKS,
  " 1985": BLANKS,
  "[1985, 1986]": BLANKS,
  "{1667, 1668}": BLANKS,
  "/": NO_DATE,
  "../..": NO_DATE,
  "../": NO_DATE,
  "2001-2X": LENIENT,
  "1985-04-12T23:20:30/1986": LENIENT,
  Y17E1: LENIENT,
  Y012345: LENIENT,
  "?1984?": LENIENT,
};

const REFUSED = "refused";

const EXPECTED: readonly (readonly [text: string, answer: string])[] = [
  ...[...LEVEL_0, ...LEVEL_1, ...LEVEL_2, ...EDGES].map(([text, ...bounds]) => [text, JSON.stringify(bounds)] as const),
  ...NOT_DATES.map(([text]) => [text, REFUSED] as const),
];

test("edtf 4.11.1 agrees with the table but for the cases that are listed with a reason", () => {
  expect(disagreements(askEdtf)).toEqual(Object.keys(EDTF_WRONG).sort());
});

test("@edtf-ts/core 0.4.2 agrees with the table but for the cases that are listed with a reason", () => {
  expect(disagreements(askEdtfTs)).toEqual(Object.keys(EDTF_TS_WRONG).sort());
});

test("most cases are confirmed by both packages, and all but a few by at least one", () => {
  const confirmed = EXPECTED.map(([text]) => Number(!(text in EDTF_WRONG)) + Number(!(text in EDTF_TS_WRONG)));
  expect(confirmed.filter((count) => count === 2).length / EXPECTED.length).toBeGreaterThan(0.6);
  expect(confirmed.filter((count) => count === 0).length / EXPECTED.length).toBeLessThan(0.2);
});

const disagreements = (ask: (text: string) => string): string[] =>
  EXPECTED.flatMap(([text, answer]) => (ask(text) === answer ? [] : [text])).sort();

function askEdtf(text: string): string {
  try {
    const date: { min: number | null; max: number | null } = edtf(text);
    return JSON.stringify([dayOf(date.min), dayOf(date.max)]);
  } catch {
    return REFUSED;
  }
}

function askEdtfTs(text: string): string {
  const read = parse(text);
  return read.success ? JSON.stringify([dayOf(Number(read.value.minMs)), dayOf(Number(read.value.maxMs))]) : REFUSED;
}

/** Both packages give an open or unknown end as null, infinite or the last moment that a Date can hold. */
function dayOf(ms: number | null): string | null {
  if (ms === null || !Number.isFinite(ms) || Math.abs(ms) >= 8.64e15) return null;
  const moment = new Date(ms);
  return sortableDay(moment.getUTCFullYear(), moment.getUTCMonth() + 1, moment.getUTCDate());
}
