import { Command } from "commander";
import { type DueLine, dueLines, neverLooked } from "#drizzle/queries/due.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { placeNamed } from "./place-named.ts";
import { answerJson, counted, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, JSON_ANSWER, withCollection } from "./with-collection.ts";

type Options = CommonOptions & { readonly place?: string; readonly by?: string };

export function dueCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  return new Command("due")
    .description("List the prints whose condition should be looked at again, soonest first, and those that nobody has looked at.")
    .option("--place <NAME>", "only this place and what is inside it")
    .option("--by <DAY>", "due by this day, e.g. 2027-03-01; today where left away")
    .option(...COLLECTION)
    .option(...JSON_ANSWER)
    .action(async (options: Options) => {
      await withCollection(collectionDirectory(terminal, options), {}, (context) => {
        const by = options.by ?? context.now().slice(0, 10);
        if (!/^\d{4}-\d{2}-\d{2}$/.test(by)) throw new Ending(EXIT.usage, "Write the day as year-month-day, such as 2027-03-01.");
        const placeId = options.place === undefined ? null : placeNamed(context, options.place);
        const due = dueLines(context.db, { placeId }).filter(({ dueOn }) => dueOn <= by);
        const never = neverLooked(context.db, { placeId }, -1);
        if (options.json) answerJson(terminal, { by, due, never: never.rows });
        else terminal.answer(inWords(due, never.rows));
        end(EXIT.done);
      });
    });
}

function inWords(due: readonly DueLine[], never: readonly { objectNumber: string; title: string }[]): string {
  const named = ({ objectNumber, title }: { objectNumber: string; title: string }) => `${objectNumber}${title === "" ? "" : ` ${title}`}`;
  return [
    due.length === 0 ? "No look is due." : `${counted(due.length, "look is", "looks are")} due.`,
    ...due.map((line) => `  ${line.dueOn}  ${named(line)}: ${line.because}`),
    ...(never.length === 0 ? [] : ["", `Never looked at: ${never.length}.`, ...never.map((print) => `  ${named(print)}`)]),
    "",
  ].join("\n");
}
