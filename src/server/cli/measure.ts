import { Command } from "commander";
import { listCaptureIds } from "#drizzle/queries/captures.ts";
import { listMeasuredByOlderVersions } from "#drizzle/queries/older-measures.ts";
import { enqueueMeasure } from "#drizzle/queries/work.ts";
import { workProgress } from "#drizzle/queries/work-progress.ts";
import { retryWork } from "../actions/retry-work.ts";
import type { Context } from "../context.ts";
import { EXIT, type ExitCode } from "./exit-code.ts";
import { folderFor } from "./folder-for.ts";
import { answerMeasures } from "./measure-files.ts";
import { type PrintOptions, saidOfPrint, withPrintOptions } from "./print-options.ts";
import { answerJson, counted, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, withCollection } from "./with-collection.ts";
import { type Worked, workToTheEnd } from "./work-to-the-end.ts";

type Options = CommonOptions &
  PrintOptions & { readonly again?: boolean; readonly failed?: boolean; readonly together?: boolean; readonly masks?: string };

export function measureCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  const command = new Command("measure")
    .description(
      "Measure the files named, without a collection; or, with none named, every capture of the collection that waits for it, and choose the masters. Stopped with Ctrl-C, the next run goes on.",
    )
    .argument("[files or folders...]")
    .option("--together", "files: they show one side of one print; compare them with each other")
    .option("--masks <DIR>", "files: write a mask of every place that a measure found, such as glare, into this folder")
    .option("--failed", "collection: try again what could not be measured before")
    .option("--again", "collection: measure every capture anew; old values hold until the new ones are whole")
    .option(...COLLECTION)
    .option("--json", "answer for programs on standard output; for files one object a line")
    .action(async (named: string[], options: Options) => end(await (named.length > 0 ? files(named, options) : collection(options))));
  const files = async (named: string[], options: Options) => {
    const kind = {
      json: options.json ?? false,
      together: options.together ?? false,
      masks: options.masks === undefined ? null : await folderFor(options.masks),
    };
    const { refusals, left } = await answerMeasures(terminal, named, saidOfPrint(options), kind);
    return refusals.length > 0 || left > 0 ? EXIT.fellShort : EXIT.done;
  };
  const collection = (options: Options) =>
    withCollection(collectionDirectory(terminal, options), {}, async (context) => {
      if (options.failed) retryWork(context);
      if (options.again) askForAll(context);
      const failedBefore = workProgress(context.db).failed;
      const worked = await workToTheEnd(context, terminal);
      if (options.json) answerJson(terminal, { ...worked, failedBefore });
      else terminal.answer(inWords(worked, failedBefore));
      const older = listMeasuredByOlderVersions(context.db).length;
      if (older > 0)
        terminal.tell(
          `${counted(older, "capture was", "captures were")} measured by an older version of the program; --again measures everything anew.\n`,
        );
      return worked.failed.length > 0 || worked.left > 0 ? EXIT.fellShort : EXIT.done;
    });
  return withPrintOptions(command);
}

function askForAll(context: Context): void {
  context.db.transaction((tx) => {
    for (const id of listCaptureIds(tx)) enqueueMeasure(tx, id);
  });
}

function inWords({ done, failed, left }: Worked, failedBefore: number): string {
  const lines = [
    done === 0 && failed.length === 0 && left === 0
      ? "Nothing waits to be measured."
      : `${counted(done, "piece of work", "pieces of work")} done.`,
  ];
  for (const { fileName, error } of failed) lines.push(`${fileName ?? "A comparison"}: ${error}`);
  if (failedBefore > 0) lines.push(`${counted(failedBefore, "piece", "pieces")} could not be measured before; --failed tries again.`);
  if (left > 0) lines.push(`Stopped; ${counted(left, "piece", "pieces")} left. Run the same command to go on.`);
  return `${lines.join("\n")}\n`;
}
