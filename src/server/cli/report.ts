import { Command } from "commander";
import { findPrintByNumber } from "#drizzle/queries/prints.ts";
import { holdAgainst } from "../actions/hold-captures-against.ts";
import { conditionReport } from "../report/condition-report.ts";
import { reportPictures } from "../report/report-pictures.ts";
import { writeConditionReport } from "../report/write-condition-report.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { answerJson, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, withCollection } from "./with-collection.ts";
import { writeOut } from "./write-out.ts";

type Options = CommonOptions & { readonly output?: string; readonly overwrite?: boolean };

export function reportCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  return new Command("report")
    .description("Write the condition report of a print as PDF: record, pictures with the marked places, findings, cautions, signatures.")
    .argument("<NUMBER>", "the print's object number")
    .option("--output <FILE>", "where to write it; NUMBER-condition-report.pdf in this folder where left away")
    .option("--overwrite", "an output file that exists is replaced")
    .option(...COLLECTION)
    .option("--json", "say what was written as JSON on standard output")
    .action(async (number: string, options: Options) => {
      await withCollection(collectionDirectory(terminal, options), {}, async (context) => {
        const print = findPrintByNumber(context.db, number);
        if (print?.binnedAt !== null)
          throw new Ending(EXIT.usage, `There is no print ${number} in this collection, or it lies in the bin. Check the number.`);
        const file = options.output ?? `${number.replaceAll(/[^\p{L}\p{N}._-]/gu, "-")}-condition-report.pdf`;
        const report = await conditionReport(context, print, holdAgainst);
        const pdf = await writeConditionReport(report, await reportPictures(context, report));
        writeOut(file, pdf, options.overwrite ?? false);
        if (options.json) answerJson(terminal, { objectNumber: number, file, bytes: pdf.length });
        else terminal.answer(`The condition report of ${number} is written to ${file}.\n`);
        end(EXIT.done);
      });
    });
}
