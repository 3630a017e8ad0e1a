import { Command } from "commander";
import type { MatchReport } from "#domain/measure/match-report.ts";
import type { Refusal } from "#domain/outcome.ts";
import { matchAmong, type Recognisable, recognisable } from "../plain-files/match-plain-files.ts";
import { EXIT, type ExitCode } from "./exit-code.ts";
import { findFiles } from "./find-files.ts";
import { type PrintOptions, saidOfPrint, withPrintOptions } from "./print-options.ts";
import { showProgress } from "./progress.ts";
import { refuse } from "./refuse.ts";
import { shownName, type Terminal } from "./terminal.ts";

type Options = PrintOptions & { readonly among: string[]; readonly json?: boolean };

export function matchCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  const command = new Command("match")
    .description("Find which files show the same print as the files named, however they lie, were lit or were made. Nothing is written.")
    .argument("<files or folders...>")
    .requiredOption("--among <files or folders...>", "where to look")
    .option("--json", "answer for programs on standard output, one object a line")
    .action(async (named: string[], options: Options) => {
      const toMatch = await findFiles(named);
      // a whole folder is not read for files that are not there
      const among = toMatch.files.length === 0 ? NOTHING : await readAll(terminal, "Reading", await findFiles(options.among), options);
      const asked = await readAll(terminal, "Matching", toMatch, options, async (file) => {
        const report = await matchAmong(file, among.read);
        terminal.answer(options.json ? `${JSON.stringify(report)}\n` : inWords(report));
      });
      // a file may be among those to match and those to look among
      const refused = new Map([...among.refusals, ...asked.refusals].map((refusal) => [refusal.about, refusal]));
      for (const [file, refusal] of refused) {
        refuse(terminal, file === null ? [] : [file], refusal, options);
      }
      end(refused.size > 0 || terminal.stop.aborted ? EXIT.fellShort : EXIT.done);
    });
  return withPrintOptions(command);
}

const NOTHING = { read: [], refusals: [] };

async function readAll(
  terminal: Terminal,
  what: string,
  { files, refusals }: Awaited<ReturnType<typeof findFiles>>,
  options: Options,
  onRead: (file: Recognisable) => Promise<void> = async () => {},
): Promise<{ read: Recognisable[]; refusals: Refusal[] }> {
  const read: Recognisable[] = [];
  const progress = showProgress(terminal, what);
  for (const [index, { path }] of files.entries()) {
    if (terminal.stop.aborted) break;
    progress.show(index, files.length);
    const outcome = await recognisable(path, saidOfPrint(options));
    if (!outcome.ok) refusals.push(...outcome.refusals);
    else {
      read.push(outcome.value);
      await onRead(outcome.value);
    }
  }
  progress.end();
  return { read, refusals };
}

function inWords({ file, sameBytes, matches }: MatchReport): string {
  const lines = [
    ...sameBytes.map((other) => `  the same file: ${shownName(other)}`),
    ...matches.map(({ file: other, verdict, quarterTurns }) => {
      const turn = quarterTurns === 0 ? "" : `, turned by ${90 * quarterTurns}°`;
      return `  ${verdict === "same" ? "the same print" : "perhaps the same print, look"}: ${shownName(other)}${turn}`;
    }),
  ];
  return `${shownName(file)}\n${(lines.length > 0 ? lines : ["  no match"]).map((line) => `${line}\n`).join("")}`;
}
