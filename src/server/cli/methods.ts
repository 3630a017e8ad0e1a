import { Command, Option } from "commander";
import { costInWords, paceInWords } from "#domain/methods/effort-in-words.ts";
import { leftOutInWords, WAYS_BY, type WaysBy } from "#domain/methods/way.ts";
import { compareMethods, type MethodsCompared } from "../actions/compare-methods.ts";
import { EXIT, type ExitCode } from "./exit-code.ts";
import { answerJson, counted, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, JSON_ANSWER, withCollection } from "./with-collection.ts";

type Options = CommonOptions & { readonly purpose?: string; readonly by: WaysBy; readonly first?: string; readonly second?: string };

export function methodsCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  return new Command("methods")
    .description("Say which way of capturing is worth the trouble, from the captures that the collection holds.")
    .addOption(new Option("--by <WHAT>", "tell ways apart by").choices([...WAYS_BY]).default("method"))
    .option("--purpose <KEY>", "judged for this purpose; preservation-master where left away")
    .option("--first <KEY>", "pair this way (a method, or a set-up's number) …")
    .option("--second <KEY>", "… with this one; the two with most prints in common where left away")
    .option(...COLLECTION)
    .option(...JSON_ANSWER)
    .action(async ({ by, purpose, first, second, ...options }: Options) => {
      await withCollection(collectionDirectory(terminal, options), {}, (context) => {
        const compared = compareMethods(context, { by, purposeKey: purpose ?? null, first: first ?? null, second: second ?? null });
        if (options.json) answerJson(terminal, compared);
        else terminal.answer(inWords(compared));
        end(EXIT.done);
      });
    });
}

function inWords({ by, ways, unnamed, verdict, cannotTell }: MethodsCompared): string {
  if (ways.length === 0) return by === "method" ? "No capture says how it was made yet.\n" : "No capture names a set-up yet.\n";
  return [
    ...ways.map(
      ({ name, prints, captures, meets, minutes, cost }) =>
        `${name}: ${counted(prints, "print", "prints")}, ${counted(captures, "capture", "captures")}, ${meets.count} meet the aim (95 %: ${Math.round(meets.lowPercent)} to ${Math.round(meets.highPercent)} %); ${paceInWords(minutes)}; equipment ${costInWords(cost)}`,
    ),
    ...(unnamed > 0 ? [`${leftOutInWords(unnamed, by)}.`] : []),
    ...(verdict.length > 0 ? ["", ...verdict, "", "What these captures cannot tell:", ...cannotTell.map((each) => `  ${each}`)] : []),
    "",
  ].join("\n");
}
