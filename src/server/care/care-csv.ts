import { findProcess } from "#domain/print/process.ts";
import { FACTORS } from "#domain/storage/care-priority.ts";
import { pathInWords } from "#domain/storage/place-tree.ts";
import { type Column, type CsvOptions, writeCsv } from "../csv/write-csv.ts";
import type { CareLine } from "./care-list.ts";

const COLUMNS: readonly Column<CareLine>[] = [
  { name: "object_number", cell: ({ print }) => print.objectNumber },
  { name: "title", cell: ({ print }) => print.title },
  { name: "process", cell: ({ print }) => findProcess(print.processId)?.name ?? print.processId },
  { name: "place", cell: ({ placePath }) => pathInWords(placePath) },
  { name: "priority", cell: ({ priority }) => priority.score },
  { name: "priority_least", cell: ({ priority }) => priority.least },
  { name: "priority_most", cell: ({ priority }) => priority.most },
  ...FACTORS.flatMap((name): Column<CareLine>[] => [
    { name: `${name}_score`, cell: ({ priority }) => priority.factors[name].score },
    { name: `${name}_because`, cell: ({ priority }) => priority.factors[name].because },
  ]),
  { name: "not_known", cell: ({ priority }) => priority.unknown.join(" ") },
];

/** The priority list as CSV, in its order. */
export const careCsv = (lines: readonly CareLine[], options: CsvOptions = {}): string => writeCsv(COLUMNS, lines, options);
