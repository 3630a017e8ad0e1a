import { Command, Option } from "commander";
import { PRINT_SORTS, type PrintFilter, readPrintFilter } from "#domain/print/print-filter.ts";
import { REQUIRED_MEASURES } from "#domain/recapture/recapture-filter.ts";
import { flatten, placeTree } from "#domain/storage/place-tree.ts";
import { inventoryRows } from "#drizzle/queries/inventory.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import type { Context } from "../context.ts";
import { inventoryCsv } from "../inventory/inventory-csv.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { knownFormat, knownProcess } from "./print-options.ts";
import { answerJson, counted, refusalLine, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, withCollection } from "./with-collection.ts";
import { writeOut } from "./write-out.ts";

type Options = CommonOptions & {
  readonly output?: string;
  readonly overwrite?: boolean;
  readonly spreadsheetSafe?: boolean;
  readonly search?: string;
  readonly process?: string;
  readonly printFormat?: string;
  readonly place?: string;
  readonly from?: string;
  readonly to?: string;
  readonly captures?: string;
  readonly recapture?: string;
  readonly sort?: string;
};

export function inventoryCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  return new Command("inventory")
    .description("Write the inventory of all prints, or of those that the filter means.")
    .addOption(new Option("--format <KIND>", "kind of file").choices(["csv"]).default("csv"))
    .option("--output <FILE>", "write to this file instead of standard output")
    .option("--overwrite", "an output file that exists is replaced")
    .option("--spreadsheet-safe", "put an apostrophe before cells that a spreadsheet would run as a formula")
    .option("--search <WORDS>", "prints whose record has all these words")
    .option("--process <ID>", "prints made by this process", knownProcess)
    .option("--print-format <ID>", "prints of this format", knownFormat)
    .option("--place <PATH>", "prints kept in this place and inside it, e.g. “Study/Box 4”")
    .option("--from <DATE>", "prints that may be of this date or later, e.g. 1978 or 1978-06 (EDTF)")
    .option("--to <DATE>", "prints that may be of this date or earlier (EDTF)")
    .addOption(new Option("--captures <WHICH>", "prints with or without captures").choices(["with", "without"]))
    .addOption(
      new Option("--recapture <REASON>", "prints to be captured again: needed, no-capture, or the measure that falls short").choices([
        "needed",
        "no-capture",
        ...REQUIRED_MEASURES,
      ]),
    )
    .addOption(new Option("--sort <BY>", "order of the rows").choices([...PRINT_SORTS]))
    .option(...COLLECTION)
    .option("--json", "rows as JSON instead of CSV")
    .action(async (options: Options) => {
      await withCollection(collectionDirectory(terminal, options), {}, (context) => {
        const rows = inventoryRows(context.db, readFilter(context, options), context.now().slice(0, 10));
        const isSafe = options.spreadsheetSafe ?? false;
        const written = options.json ? null : inventoryCsv(rows, { spreadsheetSafe: isSafe });
        if (options.output !== undefined)
          writeOut(options.output, written ?? `${JSON.stringify(rows, null, 2)}\n`, options.overwrite ?? false);
        else if (written === null) answerJson(terminal, rows);
        else terminal.answer(written);
        if (options.output !== undefined) terminal.tell(`${counted(rows.length, "print", "prints")} written to ${options.output}.\n`);
        end(EXIT.done);
      });
    });
}

/** The same filter as the list of prints on screen; what cannot be understood ends the command. */
function readFilter(context: Context, options: Options): PrintFilter {
  const query = {
    search: options.search,
    process: options.process,
    format: options.printFormat,
    place: options.place === undefined ? undefined : String(placeId(context, options.place)),
    from: options.from,
    to: options.to,
    captures: options.captures,
    recapture: options.recapture,
    sort: options.sort,
  };
  const said = Object.fromEntries(Object.entries(query).flatMap(([name, value]) => (value === undefined ? [] : [[name, value]])));
  const { filter, problems } = readPrintFilter(said);
  if (problems.length > 0) throw new Ending(EXIT.usage, problems.map(refusalLine).join("\n"));
  return { ...filter, perPage: null };
}

function placeId(context: Context, path: string): number {
  const wanted = path.split(/[/›]/).map((name) => name.trim().toLowerCase());
  const found = flatten(placeTree(listPlaces(context.db))).filter(
    (place) =>
      place.path.length >= wanted.length && wanted.every((name, index) => place.path.at(index - wanted.length)?.toLowerCase() === name),
  );
  const [place] = found;
  if (place && found.length === 1) return place.id;
  if (place)
    throw new Ending(
      EXIT.usage,
      `There are ${found.length} places called ${path}. Say in which one it is, e.g. “${place.path.join("/")}”.`,
    );
  throw new Ending(EXIT.usage, `There is no place called ${path}. Write the names from the outside in, with a slash between them.`);
}
