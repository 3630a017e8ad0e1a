import { describe, expect, test } from "vitest";
import { isDay, sortableDay } from "#domain/print/calendar.ts";
import { parseDate } from "#domain/print/date.ts";
import { EDGES, LEVEL_0, LEVEL_1, LEVEL_2, NOT_DATES } from "../fixtures/edtf-cases.ts";

// Library of Congress, Extended Date/Time Format (EDTF) Specification, 4 February 2019.
describe.each([
  ["level 0", LEVEL_0],
  ["level 1", LEVEL_1],
  ["level 2", LEVEL_2],
  ["the edges of the rules", EDGES],
])("the Library of Congress specification, %s", (_name, cases) => {
  test.each(cases)("%s means %s to %s", (text, earliest, latest) => {
    expect(parseDate(text)).toEqual({ ok: true, edtf: text, earliest, latest });
  });
});

test.each(NOT_DATES)("“%s” is no date: %s", (text) => {
  expect(parseDate(text).ok).toBe(false);
});

test("from 1890 to 2110 a day is read exactly when the calendar of the JavaScript engine has it", () => {
  let days = 0;
  const wrong: string[] = [];
  for (let year = 1890; year <= 2110; year++) {
    for (let month = 0; month <= 13; month++) {
      for (let day = 0; day <= 32; day++) {
        const text = `${year}-${twoDigits(month)}-${twoDigits(day)}`;
        const exists = new Date(Date.UTC(year, month - 1, day)).toISOString().slice(0, 10) === text;
        if (parseDate(text).ok !== exists || isDay(text) !== exists) wrong.push(text);
        if (exists) days++;
      }
    }
  }
  expect(wrong).toEqual([]);
  expect(days).toBe(80_718); // 221 years with 53 leap days (1892 to 2108 without 1900 and 2100)
});

test("unspecified digits reach from the first to the last day of the calendar that has them", () => {
  const days: string[] = [];
  for (let moment = Date.UTC(1900, 0, 1); moment < Date.UTC(2000, 0, 1); moment += 86_400_000) {
    days.push(new Date(moment).toISOString().slice(0, 10));
  }
  const patterns = ["X", "0", "1", "2", "3", "9"].flatMap((a) => ["X", "0", "1", "9"].map((b) => a + b));
  let possible = 0;
  const wrong: string[] = [];
  for (const year of ["19XX", "192X", "19X3", "1900"]) {
    const ofYear = days.filter((each) => hasDigits(each.slice(0, 4), year));
    for (const month of patterns) {
      const ofMonth = ofYear.filter((each) => hasDigits(each.slice(5, 7), month));
      for (const day of patterns) {
        const text = `${year}-${month}-${day}`;
        const fitting = ofMonth.filter((each) => hasDigits(each.slice(8), day));
        const read = parseDate(text);
        const [earliest, latest] = read.ok ? [read.earliest, read.latest] : [undefined, undefined];
        if (earliest !== fitting[0] || latest !== fitting.at(-1)) wrong.push(text);
        if (fitting.length > 0) possible++;
      }
    }
  }
  expect(wrong).toEqual([]);
  expect(possible).toBeGreaterThan(100);
});

const hasDigits = (digits: string, pattern: string): boolean =>
  [...pattern].every((letter, place) => letter === "X" || letter === digits[place]);

test("days sort by time as texts, before year 0 and beyond 9999 too", () => {
  const years = [-170_000_002, -10_000, -9999, -1985, -1, 0, 1, 999, 1978, 9999, 10_000, 99_999, 100_000, 170_000_002];
  const days = years.flatMap((year) => [sortableDay(year, 1, 1), sortableDay(year, 1, 31), sortableDay(year, 12, 2)]);
  expect([...days].reverse().sort()).toEqual(days);
  expect(new Set(days).size).toBe(days.length);
});

const twoDigits = (value: number): string => String(value).padStart(2, "0");
