import { Command, Option } from "commander";
import { PURPOSE_KEYS, type PurposeKey } from "#domain/aim/aim.ts";
import { ALL_PRINTS } from "#domain/print/print-filter.ts";
import { findPrintByNumber, listPrints } from "#drizzle/queries/prints.ts";
import { type ChosenMaster, chooseMasters } from "../actions/choose-masters.ts";
import type { Context } from "../context.ts";
import { answerChoice } from "./choose-files.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { type PrintOptions, saidOfPrint, withPrintOptions } from "./print-options.ts";
import { answerJson, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, JSON_ANSWER, withCollection } from "./with-collection.ts";

type Options = CommonOptions & PrintOptions & { readonly print?: string; readonly files?: string[]; readonly purpose?: PurposeKey };

export function chooseCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  const command = new Command("choose")
    .description(
      "Choose the masters from the measures, and say why. What a person chose stays. With --files, choose among files without a collection.",
    )
    .option("--print <NUMBER>", "only for this print")
    .option("--files <files...>", "captures of one side of one print that lie in no collection")
    .addOption(new Option("--purpose <PURPOSE>", "files: only for this purpose").choices([...PURPOSE_KEYS]))
    .option(...COLLECTION)
    .option(...JSON_ANSWER)
    .action(async (options: Options) => end(await (options.files ? files(options.files, options) : collection(options))));
  const files = async (named: string[], options: Options) => {
    const kind = { json: options.json ?? false, purpose: options.purpose ?? null };
    const { refusals, left, hasAll } = await answerChoice(terminal, named, saidOfPrint(options), kind);
    return refusals.length > 0 || left > 0 || !hasAll ? EXIT.fellShort : EXIT.done;
  };
  const collection = (options: Options) =>
    withCollection(collectionDirectory(terminal, options), {}, (context) => {
      const chosen = chooseMasters(context, options.print === undefined ? {} : { printIds: [printId(context, options.print)] });
      const numbers = new Map(listPrints(context.db, ALL_PRINTS).rows.map((print) => [print.id, print.objectNumber]));
      const named = chosen.map(({ printId, ...rest }) => ({ objectNumber: numbers.get(printId) ?? null, ...rest }));
      if (options.json) answerJson(terminal, named);
      else terminal.answer(named.map(inWords).join(""));
      return EXIT.done;
    });
  return withPrintOptions(command);
}

const inWords = ({ objectNumber, side, purpose, sentence }: Omit<ChosenMaster, "printId"> & { objectNumber: string | null }): string =>
  `${objectNumber ?? "?"}  ${side === "front" ? "" : `${side}, `}${purpose}: ${sentence}\n`;

function printId(context: Context, number: string): number {
  const print = findPrintByNumber(context.db, number);
  if (!print) throw new Ending(EXIT.usage, `There is no print ${number} in this collection. Check the number.`);
  return print.id;
}
