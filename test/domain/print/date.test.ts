import { describe, expect, test } from "vitest";
import { dateInWords, parseDate } from "#domain/print/date.ts";

describe("what people type is answered with the EDTF they mean", () => {
  const TYPED: readonly (readonly [typed: string, edtf: string])[] = [
    ["about 1978", "1978~"],
    ["c. 1950", "1950~"],
    ["[ca. 1950]", "1950~"],
    ["c1950", "1950~"],
    ["probably 1978", "1978?"],
    ["1978 (?)", "1978?"],
    ["perhaps about 1978", "1978%"],
    ["1970s", "197X"],
    ["the 1970's", "197X"],
    ["c. 1880s", "188X~"],
    ["19th century", "18XX"],
    ["late 1860s", "1865~/1869~"],
    ["early 20th century", "1900~/1933~"],
    ["mid-1970s", "1973~/1977~"],
    ["1978 or 1979", "[1978,1979]"],
    ["1976, 1978 or 1979", "[1976,1978,1979]"],
    ["1978 and 1979", "{1978,1979}"],
    ["before 1900", "[..1899]"],
    ["before June 1978", "[..1978-05]"],
    ["before 1 March 1900", "[..1900-02-28]"],
    ["by 1900", "[..1900]"],
    ["1900 or earlier", "[..1900]"],
    ["after 1898", "[1899..]"],
    ["after the 1970s", "[1980..]"],
    ["after 31 December 1978", "[1979-01-01..]"],
    ["no earlier than 1906", "[1906..]"],
    ["from 1950 onwards", "[1950..]"],
    ["summer 1978", "1978-22"],
    ["fall of 1978", "1978-23"],
    ["June 1978", "1978-06"],
    ["Sept. 1978", "1978-09"],
    ["12 June 1978", "1978-06-12"],
    ["June 12th, 1978", "1978-06-12"],
    ["1978 June 12", "1978-06-12"],
    ["25.9.2005", "2005-09-25"],
    ["19780612", "1978-06-12"],
    ["1978-6-2", "1978-06-02"],
    ["1976 to 1978", "1976/1978"],
    ["between 1976 and 1978", "1976/1978"],
    ["1976–9", "1976/1979"],
    ["1978-79", "1978/1979"],
    ["c. 1945-1955", "1945~/1955~"],
    ["1920s-1930s", "192X/193X"],
    ["September - October 1957", "1957-09/1957-10"],
    ["June 9-11, 1953", "1953-06-09/1953-06-11"],
    ["9–11 June 1953", "1953-06-09/1953-06-11"],
    ["1979/1976", "1976/1979"],
    ["[1978, 1979]", "[1978,1979]"],
    [" 1978 ", "1978"],
    ["197u", "197X"],
    ["1978?~", "1978%"],
    ["open/1978", "../1978"],
    ["1977, printed 1986", "1977"],
    ["1978-02-30", "1978-02"],
  ];
  test.each(TYPED)("%s → %s", (typed, edtf) => {
    expect(parseDate(typed)).toMatchObject({ ok: false, suggestion: edtf });
    expect(parseDate(edtf).ok).toBe(true);
  });
});

test("a day written with figures that two countries read differently is offered as one of two days", () => {
  expect(parseDate("3/11/2006")).toMatchObject({ ok: false, suggestion: "[2006-03-11,2006-11-03]" });
});

test("nothing is suggested where it would be a guess", () => {
  for (const typed of ["nonsense", "the war", "'78", "70s", "winter 1978–79", "1995, 2008", "31 June 1978", "1978-13-13", "45/45/1978"]) {
    expect(parseDate(typed), typed).toMatchObject({ ok: false, suggestion: null });
  }
});

test("no date is said in many ways and always means an empty field", () => {
  for (const typed of ["undated", "n.d.", "no date", "Unknown", "s.d.", "?"]) {
    expect(parseDate(typed), typed).toMatchObject({ ok: false, suggestion: null, problem: expect.stringMatching(/Leave the field empty/) });
  }
});

test("the year of printing is told to go into the notes", () => {
  expect(parseDate("1977, printed 1986")).toMatchObject({ problem: expect.stringMatching(/notes/) });
});

test("hostile and endless texts are refused", () => {
  const texts = [
    "1".repeat(100_000),
    `[${"1978,".repeat(50)}1978`,
    "X".repeat(300),
    `${"1978 or ".repeat(30)}`,
    "Y9E99",
    `Y${"9".repeat(40)}`,
    "XXXX-XX-39",
  ];
  for (const text of texts) expect(parseDate(text).ok, text.slice(0, 20)).toBe(false);
});

describe("a date as one would say it", () => {
  const SAID: readonly (readonly [edtf: string, words: string])[] = [
    ["1978", "1978"],
    ["1978~", "about 1978"],
    ["1978?", "perhaps 1978"],
    ["1978%", "perhaps about 1978"],
    ["197X", "1970s"],
    ["197X~", "about the 1970s"],
    ["19XX", "between 1900 and 1999"],
    ["1978-06", "June 1978"],
    ["1978-06-12", "12 June 1978"],
    ["1978-XX", "some month of 1978"],
    ["1978-06-XX", "some day in June 1978"],
    ["156X-12-25", "25 December, some year in the 1560s"],
    ["1978-22", "summer 1978"],
    ["2001-34", "second quarter of 2001"],
    ["1976/1978", "1976 to 1978"],
    ["../1899", "until 1899"],
    ["1985/..", "from 1985 on"],
    ["/1985", "unknown to 1985"],
    ["[..1899]", "before 1900"],
    ["[1978,1979]", "1978 or 1979"],
    ["{1667,1668,1670..1672}", "1667, 1668 and 1670 to 1672"],
    ["[1760-12..]", "December 1760 or later"],
    ["?2004-06-~11", "11 June 2004 (year uncertain, day approximate)"],
    ["1950S2", "about 1950, between 1900 and 1999"],
    ["1985-04-12T23:20:30+04:30", "12 April 1985, 23:20:30 UTC+04:30"],
    ["-0043", "44 BC"],
    ["Y170000002", "170000002"],
    ["not a date", "not a date"],
  ];
  test.each(SAID)("%s is said “%s”", (edtf, words) => {
    expect(dateInWords(edtf)).toBe(words);
  });
});
