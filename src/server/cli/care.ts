import { Command } from "commander";
import { readPrintFilter } from "#domain/print/print-filter.ts";
import { FACTORS } from "#domain/storage/care-priority.ts";
import { pathInWords } from "#domain/storage/place-tree.ts";
import { careCsv } from "../care/care-csv.ts";
import { type CareLine, careList } from "../care/care-list.ts";
import { EXIT, type ExitCode } from "./exit-code.ts";
import { placeNamed } from "./place-named.ts";
import { answerJson, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, JSON_ANSWER, withCollection } from "./with-collection.ts";

type Options = CommonOptions & {
  readonly search?: string;
  readonly process?: string;
  readonly place?: string;
  readonly csv?: boolean;
  readonly most?: string;
};

export function careCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  return new Command("care")
    .description("List the prints that ask for care first: condition, damage that goes on, significance and climate.")
    .option("--search <WORDS>", "only prints with these words in their record")
    .option("--process <ID>", "only prints of this process")
    .option("--place <NAME>", "only this place and what is inside it")
    .option("--most <NUMBER>", "no more than so many")
    .option("--csv", "as CSV on standard output")
    .option(...COLLECTION)
    .option(...JSON_ANSWER)
    .action(async (options: Options) => {
      await withCollection(collectionDirectory(terminal, options), {}, (context) => {
        const place = options.place === undefined ? "" : String(placeNamed(context, options.place));
        const { filter } = readPrintFilter({ search: options.search ?? "", process: options.process ?? "", place });
        const all = careList(context, filter);
        const lines = /^\d{1,6}$/.test(options.most ?? "") ? all.slice(0, Number(options.most)) : all;
        if (options.json) answerJson(terminal, lines);
        else terminal.answer(options.csv ? careCsv(lines) : lines.length === 0 ? "No print fits.\n" : lines.map(block).join(""));
        end(EXIT.done);
      });
    });
}

function block({ print, placePath, priority }: CareLine): string {
  const range = priority.least === priority.most ? "" : ` (${priority.least} to ${priority.most})`;
  const where = placePath.length === 0 ? "place not known" : pathInWords(placePath);
  const factors = FACTORS.map((name) => {
    const { score, because, isKnown } = priority.factors[name];
    return `    ${name} ${isKnown ? score : `not known, counted as ${score}`}: ${because}`;
  });
  return `${[`${priority.score}${range}  ${print.objectNumber} ${print.title}, ${where}`, ...factors].join("\n")}\n`;
}
