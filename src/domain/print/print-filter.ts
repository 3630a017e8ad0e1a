import { z } from "zod";
import type { Refusal } from "../outcome.ts";
import { RECAPTURE_FILTERS, type RecaptureFilter } from "../recapture/recapture-filter.ts";
import { readTypedDate } from "./date.ts";

export const PRINT_SORTS = ["number", "title", "date", "updated"] as const;
export type PrintSort = (typeof PRINT_SORTS)[number];

/** Which prints are meant, in which order. One object for the list, the contact sheet and the inventory. */
export type PrintFilter = {
  /** words that must all be found somewhere in the record; each may be the beginning of a word */
  readonly search: string;
  readonly processId: string | null;
  readonly formatId: string | null;
  /** the place itself and every place inside it */
  readonly placeId: number | null;
  /** EDTF as typed; prints whose date may lie between the first day of `from` and the last day of `to` */
  readonly dateFrom: string;
  readonly dateTo: string;
  readonly firstDay: string | null;
  readonly lastDay: string | null;
  readonly captures: "any" | "with" | "without";
  /** for the preservation master */
  readonly recapture: RecaptureFilter;
  readonly sort: PrintSort;
  readonly direction: "up" | "down";
  /** counted from 1 */
  readonly page: number;
  /** null: all of them on one page */
  readonly perPage: number | null;
};

const PER_PAGE = 50;
const MOST_SEARCH_LETTERS = 200;

/** An address can be old or mistyped: what cannot be understood is left out, never an error page. */
const printFilter = z.object({
  search: z.string().trim().max(MOST_SEARCH_LETTERS).catch(""),
  process: shortText(),
  format: shortText(),
  place: z.coerce.number().int().positive().nullable().catch(null),
  from: z.string().trim().max(MOST_SEARCH_LETTERS).catch(""),
  to: z.string().trim().max(MOST_SEARCH_LETTERS).catch(""),
  captures: z.enum(["any", "with", "without"]).catch("any"),
  recapture: z.enum(RECAPTURE_FILTERS).catch("any"),
  sort: z.enum(PRINT_SORTS).catch("number"),
  direction: z.enum(["up", "down"]).catch("up"),
  page: z.coerce.number().int().min(1).max(1_000_000).catch(1),
});

/**
 * Reads a filter from the query of an address. Dates that cannot be read are told, and left out of
 * the filter; what was typed is kept so that it can be mended.
 */
export function readPrintFilter(query: Readonly<Record<string, string>>): { filter: PrintFilter; problems: Refusal[] } {
  const read = printFilter.parse(query);
  const from = readDay(read.from, "from", "earliest");
  const to = readDay(read.to, "to", "latest");
  return {
    filter: {
      search: read.search,
      processId: read.process,
      formatId: read.format,
      placeId: read.place,
      dateFrom: read.from,
      dateTo: read.to,
      firstDay: from.day,
      lastDay: to.day,
      captures: read.captures,
      recapture: read.recapture,
      sort: read.sort,
      direction: read.direction,
      page: read.page,
      perPage: PER_PAGE,
    },
    problems: [...from.problems, ...to.problems],
  };
}

/** Every print that is not in the bin, by number, on one page. */
export const ALL_PRINTS: PrintFilter = { ...readPrintFilter({}).filter, perPage: null };

/** The names and values of an address's query that says the same filter; what is as usual is left out. */
export function printFilterQuery(filter: PrintFilter): Record<string, string> {
  const query: Record<string, string> = {};
  if (filter.search !== "") query.search = filter.search;
  if (filter.processId !== null) query.process = filter.processId;
  if (filter.formatId !== null) query.format = filter.formatId;
  if (filter.placeId !== null) query.place = String(filter.placeId);
  if (filter.dateFrom !== "") query.from = filter.dateFrom;
  if (filter.dateTo !== "") query.to = filter.dateTo;
  if (filter.captures !== "any") query.captures = filter.captures;
  if (filter.recapture !== "any") query.recapture = filter.recapture;
  if (filter.sort !== "number") query.sort = filter.sort;
  if (filter.direction !== "up") query.direction = filter.direction;
  if (filter.page !== 1) query.page = String(filter.page);
  return query;
}

/** Whether anything narrows the list; sorting does not. */
export const isNarrowed = (filter: PrintFilter): boolean =>
  Object.keys(printFilterQuery({ ...filter, sort: "number", direction: "up", page: 1 })).length > 0;

function shortText() {
  return z.string().trim().min(1).max(100).nullable().catch(null);
}

function readDay(typed: string, about: "from" | "to", end: "earliest" | "latest"): { day: string | null; problems: Refusal[] } {
  if (typed === "") return { day: null, problems: [] };
  const date = readTypedDate(typed);
  if (date.ok) return { day: date[end], problems: [] };
  return {
    day: null,
    problems: [
      {
        about,
        happened: `The date “${typed}” was left out of the search: ${date.problem}`,
        remedy: date.suggestion === null ? "Write a year such as 1978, or a day such as 1978-06-21." : `Did you mean ${date.suggestion}?`,
      },
    ],
  };
}
