import { expect, test } from "vitest";
import { ALL_PRINTS, isNarrowed, printFilterQuery, readPrintFilter } from "#domain/print/print-filter.ts";

test("an empty address means all prints by number, fifty a page", () => {
  const { filter, problems } = readPrintFilter({});
  expect(filter).toEqual({ ...ALL_PRINTS, perPage: 50 });
  expect(problems).toEqual([]);
  expect(isNarrowed(filter)).toBe(false);
  expect(printFilterQuery(filter)).toEqual({});
});

test("a filter and its address say the same, whatever stands in it", () => {
  const address = {
    search: 'tear & "weir" 50% ü',
    process: "chromogenic",
    format: "sheet-4r",
    place: "12",
    from: "1970",
    to: "1979",
    captures: "without",
    recapture: "samplingPpi",
    sort: "date",
    direction: "down",
    page: "3",
  };
  const { filter } = readPrintFilter(address);
  expect(filter).toMatchObject({ placeId: 12, firstDay: "1970-01-01", lastDay: "1979-12-31", page: 3 });
  expect(printFilterQuery(filter)).toEqual(address);
  expect(readPrintFilter(printFilterQuery(filter)).filter).toEqual(filter);
});

test.each([
  [{ page: "-1" }],
  [{ page: "1e99" }],
  [{ page: "two" }],
  [{ place: "4711 OR 1=1" }],
  [{ place: "-3" }],
  [{ sort: "secret" }],
  [{ direction: "sideways" }],
  [{ captures: "some" }],
  [{ recapture: "beauty" }],
  [{ process: "" }],
  [{ search: "x".repeat(100_000) }],
  [{ perPage: "999999" }],
])("what cannot be understood is left out: %o", (query) => {
  expect(readPrintFilter(query as Record<string, string>).filter).toEqual({ ...ALL_PRINTS, perPage: 50 });
});

test("a date that cannot be read is told with what was typed, and left out of the search", () => {
  const { filter, problems } = readPrintFilter({ from: "long ago", to: "1979" });
  expect(filter).toMatchObject({ dateFrom: "long ago", firstDay: null, lastDay: "1979-12-31" });
  expect(problems).toMatchObject([{ about: "from", happened: expect.stringContaining("“long ago”") }]);
});

test("sorting and paging do not count as narrowing", () => {
  expect(isNarrowed(readPrintFilter({ sort: "date", direction: "down", page: "4" }).filter)).toBe(false);
  expect(isNarrowed(readPrintFilter({ search: "weir" }).filter)).toBe(true);
});
