import { Command } from "commander";
import { ALL_PRINTS } from "#domain/print/print-filter.ts";
import { findPrintByNumber, listPrints } from "#drizzle/queries/prints.ts";
import { type ChosenMaster, chooseMasters } from "../actions/choose-masters.ts";
import type { Context } from "../context.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { answerJson, type Terminal } from "./terminal.ts";
import { type CommonOptions, collectionDirectory, withCollection } from "./with-collection.ts";

type Options = CommonOptions & { readonly print?: string };

export function chooseCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  return new Command("choose")
    .description("Choose the masters from the measures, and say why. What a person chose stays.")
    .option("--print <NUMBER>", "only for this print")
    .option("--collection <DIR>", "folder of the collection (or SOLANDER_COLLECTION)")
    .option("--json", "answer for programs on standard output")
    .action(async (options: Options) => {
      await withCollection(collectionDirectory(terminal, options), {}, (context) => {
        const chosen = chooseMasters(context, options.print === undefined ? {} : { printIds: [printId(context, options.print)] });
        const numbers = new Map(listPrints(context.db, ALL_PRINTS).rows.map((print) => [print.id, print.objectNumber]));
        const named = chosen.map(({ printId, ...rest }) => ({ objectNumber: numbers.get(printId) ?? null, ...rest }));
        if (options.json) answerJson(terminal, named);
        else terminal.answer(named.map(inWords).join(""));
        end(EXIT.done);
      });
    });
}

const inWords = ({ objectNumber, side, purpose, sentence }: Omit<ChosenMaster, "printId"> & { objectNumber: string | null }): string =>
  `${objectNumber ?? "?"}  ${side === "front" ? "" : `${side}, `}${purpose}: ${sentence}\n`;

function printId(context: Context, number: string): number {
  const print = findPrintByNumber(context.db, number);
  if (!print) throw new Ending(EXIT.usage, `There is no print ${number} in this collection. Check the number.`);
  return print.id;
}
