import { expect, test } from "vitest";
import { guessDelimiter, guessMapping } from "#domain/storage/climate/guess-mapping.ts";
import { type LoggerMapping, loggerMapping } from "#domain/storage/climate/logger-mapping.ts";
import { rowReader } from "#domain/storage/climate/read-row.ts";
import { readStamp } from "#domain/storage/climate/read-stamp.ts";
import { localClock } from "#domain/storage/climate/time-zone.ts";

const MAPPING: LoggerMapping = {
  delimiter: "comma",
  firstRow: 2,
  timeColumn: 1,
  clockColumn: null,
  dateOrder: "year-month-day",
  timeZone: "UTC",
  temperatureColumn: 2,
  temperatureUnit: "celsius",
  humidityColumn: 3,
  decimalSign: "point",
};
const utc = (text: string): number => Date.parse(`${text}Z`) / 1000;

test.each([
  ["2026-03-01 14:05", "year-month-day", "2026-03-01T14:05:00"],
  ["2026/3/1 14:05:09", "year-month-day", "2026-03-01T14:05:09"],
  ["01.03.2026 14:05", "day-month-year", "2026-03-01T14:05:00"],
  ["3/1/2026 2:05 PM", "month-day-year", "2026-03-01T14:05:00"],
  ["3/1/26 12:05:00 AM", "month-day-year", "2026-03-01T00:05:00"],
  ["2026-03-01", "year-month-day", "2026-03-01T00:00:00"],
] as const)("%s is read as %s", (text, order, expected) => {
  expect(readStamp(text, order)?.localSeconds).toBe(utc(expected));
});

test.each(["2026-02-30 10:00", "2026-13-01", "noon", "", "2026-03-01 25:00", "2026-03-01 13:05 PM"])("“%s” is no moment", (text) => {
  expect(readStamp(text, "year-month-day")).toBeNull();
});

test("a stamp that says its distance from UTC needs no time zone", () => {
  const read = rowReader({ ...MAPPING, timeZone: "America/New_York" });
  expect(read(["2026-03-01T14:00:00+02:00", "20", "40"]).reading?.atSeconds).toBe(utc("2026-03-01T12:00:00"));
});

test("summer time: the hour left out was never, and the hour that comes twice is told by the order of the rows", () => {
  // Germany, 2026: 29 March 02:00 to 03:00 is left out, 25 October 02:00 to 03:00 comes twice (Directive 2000/84/EC)
  const clock = localClock("Europe/Berlin");
  expect(clock?.momentOf(utc("2026-03-29T02:30:00"), null)).toBeNull();
  expect(clock?.momentOf(utc("2026-03-29T03:30:00"), null)).toBe(utc("2026-03-29T01:30:00"));
  expect(clock?.momentOf(utc("2026-07-01T12:00:00"), null)).toBe(utc("2026-07-01T10:00:00"));
  const first = clock?.momentOf(utc("2026-10-25T02:30:00"), utc("2026-10-25T00:00:00")) ?? 0;
  expect(first).toBe(utc("2026-10-25T00:30:00"));
  expect(clock?.momentOf(utc("2026-10-25T02:30:00"), first)).toBe(utc("2026-10-25T01:30:00"));
});

test.each([
  ["UTC", 0],
  ["+01:00", -3600],
  ["UTC-5", 5 * 3600],
  ["GMT+5:30", -5.5 * 3600],
] as const)("%s stands still", (zone, seconds) => {
  expect(localClock(zone)?.momentOf(0, null)).toBe(seconds);
});

test("no time zone is no time zone", () => {
  for (const zone of ["", "noon", "Europe/Nowhere", "+15:00"]) expect(localClock(zone)).toBeNull();
});

test("Fahrenheit, decimal comma and units behind the figures", () => {
  const read = rowReader({ ...MAPPING, temperatureUnit: "fahrenheit", decimalSign: "comma" });
  expect(read(["2026-03-01 10:00", "68,0 °F", "41,5 %"]).reading).toMatchObject({ temperatureCentiC: 2000, humidityCentiPercent: 4150 });
  expect(read(["2026-03-01 10:10", "1.234,5", "41"])).toMatchObject({
    problems: ["number-unreadable"],
    reading: { temperatureCentiC: null },
  });
});

test("implausible values are left out and told, the other value is kept", () => {
  const read = rowReader(MAPPING);
  expect(read(["2026-03-01 10:00", "850", "41"])).toMatchObject({
    reading: { temperatureCentiC: null, humidityCentiPercent: 4100 },
    problems: ["temperature-implausible"],
  });
  expect(read(["2026-03-01 10:10", "20", "-3"]).problems).toEqual(["humidity-implausible"]);
  expect(read(["2026-03-01 10:20", "", ""])).toEqual({ reading: null, problems: ["no-value"] });
  expect(read(["yesterday", "20", "40"])).toEqual({ reading: null, problems: ["time-unreadable"] });
});

test("a file is recognised under a heading of its logger, with decimal commas", () => {
  const lines = ["Serial number 12", "", "Date;Time;Temp. (°C);Humidity (%RH)", "13.04.2026;10:00;18,5;42,0", "13.04.2026;10:10;18,6;42,1"];
  expect(guessDelimiter(lines)).toBe("semicolon");
  expect(guessMapping(lines.map((line) => line.split(";")))).toMatchObject({
    firstRow: 4,
    timeColumn: 1,
    clockColumn: 2,
    dateOrder: "day-month-year",
    temperatureColumn: 3,
    humidityColumn: 4,
    temperatureUnit: "celsius",
    decimalSign: "comma",
  });
});

test("a closing line that is no reading does not hide the order of the date", () => {
  const guessed = guessMapping([
    ["time", "t"],
    ["2026-03-04 10:00", "20"],
    ["end of data", ""],
  ]);
  expect(guessed.dateOrder).toBe("year-month-day");
});

test("a day that two orders can mean is not guessed", () => {
  const guessed = guessMapping([
    ["time", "temp F", "rh"],
    ["03/04/2026 10:00", "68", "40"],
  ]);
  expect(guessed.dateOrder).toBeUndefined();
  expect(guessed.temperatureUnit).toBe("fahrenheit");
});

test("a mapping without any value, or with one column for both, is refused at its field", () => {
  const texts = Object.fromEntries(Object.entries(MAPPING).map(([name, value]) => [name, value === null ? "" : String(value)]));
  expect(loggerMapping.safeParse(texts).success).toBe(true);
  const none = loggerMapping.safeParse({ ...texts, temperatureColumn: "", humidityColumn: "" });
  expect(none.error?.issues[0]?.path).toEqual(["temperatureColumn"]);
  expect(loggerMapping.safeParse({ ...texts, humidityColumn: "2" }).error?.issues[0]?.path).toEqual(["humidityColumn"]);
  expect(loggerMapping.safeParse({ ...texts, timeZone: "soon" }).error?.issues[0]?.path).toEqual(["timeZone"]);
});
