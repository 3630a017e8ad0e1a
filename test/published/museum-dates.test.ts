import { readFileSync } from "node:fs";
import { parse } from "csv-parse/sync";
import { expect, test } from "vitest";
import { parseDate } from "#domain/print/date.ts";

/*
 * Date texts of two museums' open catalogues (CC0; test/fixtures/catalogue-records/README.md), read by our
 * suggestions. The museum gives most bounds in whole years, so years are compared.
 */
const readCsv = (name: string): Record<string, string>[] =>
  parse(readFileSync(new URL(`../fixtures/catalogue-records/${name}`, import.meta.url)), { columns: true });

const namesATime = (text: string): boolean => /\d{4}|century/.test(text);

const museum = readCsv("museum-dates.csv").map((row) => ({
  text: row.creation_date ?? "",
  earliest: row.creation_date_earliest ?? "",
  latest: row.creation_date_latest ?? "",
  records: Number(row.records),
}));
const gallery = readCsv("gallery-dates.csv").map((row) => ({ text: row.dateText ?? "", records: Number(row.records) }));

/** The date as read, or as suggested; null when it is not understood. */
function understood(text: string): { earliest: string | null; latest: string | null } | null {
  const read = parseDate(text);
  if (read.ok) return read;
  const suggested = read.suggestion === null ? null : parseDate(read.suggestion);
  return suggested?.ok ? suggested : null;
}

const sum = (rows: readonly { records: number }[]): number => rows.reduce((total, row) => total + row.records, 0);

test("the first museum's date texts that name a year or century are all understood (1425 records)", () => {
  const rows = museum.filter((row) => namesATime(row.text));
  expect(sum(rows)).toBe(1425);
  expect(rows.filter((row) => understood(row.text) === null).map((row) => row.text)).toEqual([]);
});

test("the years read overlap the museum's own in all but 10 of 1425 records (99.3 %), each of them looked at", () => {
  const apart = museum.filter((row) => {
    const read = namesATime(row.text) ? understood(row.text) : null;
    if (read === null) return false;
    const startsInTime = read.earliest === null || read.earliest.slice(0, 4) <= row.latest.slice(0, 4);
    const endsInTime = read.latest === null || read.latest.slice(0, 4) >= row.earliest.slice(0, 4);
    return !(startsInTime && endsInTime);
  });
  expect(Object.fromEntries(apart.map((row) => [row.text, `${row.earliest.slice(0, 4)} to ${row.latest.slice(0, 4)}`]))).toEqual({
    // slips of the museum
    "1961-1962": "1955 to 1960",
    "c. 1940": "1929 to 1939",
    // the museum gives the year of printing, we the year of the picture
    "1963, printed 1980": "1980 to 1980",
    "1968, printed 1980": "1980 to 1980",
    "1971, printed 1980": "1980 to 1980",
  });
  expect(sum(apart)).toBe(10);
});

test("of the second museum's texts that name a year, all but 3 of 555 records are understood; two years without a word between stay open", () => {
  const rows = gallery.filter((row) => namesATime(row.text));
  expect(sum(rows)).toBe(555);
  const open = rows.filter((row) => understood(row.text) === null);
  expect(open.map((row) => row.text).sort()).toEqual(["1965, 1997", "1972, 1998", "1995, 2008"]);
});

test("texts without a date are told to be left empty", () => {
  for (const text of ["no date", "date not known"]) {
    expect([...museum, ...gallery].some((row) => row.text === text)).toBe(true);
    expect(parseDate(text)).toMatchObject({ ok: false, suggestion: null, problem: expect.stringMatching(/Leave the field empty/) });
  }
});
