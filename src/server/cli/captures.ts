import { Command } from "commander";
import { putAwayInput } from "#domain/capture/put-away.ts";
import type { Outcome } from "#domain/outcome.ts";
import { listCapturesOfPrint, listTray } from "#drizzle/queries/captures.ts";
import { findPrintByNumber } from "#drizzle/queries/prints.ts";
import { listPutAway } from "#drizzle/queries/put-away.ts";
import { putAwayCapture, takeBackCapture } from "../actions/put-away-capture.ts";
import type { Context } from "../context.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { answerJson, refusalLine, shownName, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, JSON_ANSWER, withCollection } from "./with-collection.ts";

type ListOptions = CommonOptions & { readonly print?: string; readonly away?: boolean };

/** Lists captures, puts those away that were taken in by mistake, and takes them back. */
export function capturesCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  const withEach = (options: CommonOptions, use: (context: Context) => void) =>
    withCollection(collectionDirectory(terminal, options), {}, use);
  return new Command("captures")
    .description("List captures with their numbers, put one away that is not to count, or take it back.")
    .addCommand(
      common(new Command("list"))
        .description("List the captures in the tray; with --print those of a print, with --away those put away.")
        .option("--print <NUMBER>", "the captures of this print")
        .option("--away", "the captures that were put away")
        .action((options: ListOptions) => withEach(options, (context) => end(list(context, terminal, options)))),
    )
    .addCommand(
      common(new Command("put-away"))
        .description("Let a capture count nowhere. Its file is kept, and it can be taken back.")
        .argument("<capture>", "its number, as list tells it and the address of its page")
        .requiredOption("--reason <WORDS>", "why, for the history")
        .action((capture: string, options: CommonOptions & { reason: string }) =>
          withEach(options, (context) => {
            const read = putAwayInput.safeParse(options);
            if (!read.success) throw new Ending(EXIT.usage, read.error.issues.map(({ message }) => `--reason: ${message}`).join("\n"));
            const outcome = putAwayCapture(context, { captureId: idOf(capture), reason: read.data.reason });
            end(answer(terminal, options, outcome, "is put away. Its file is kept; “captures take-back” lets it count again."));
          }),
        ),
    )
    .addCommand(
      common(new Command("take-back"))
        .description("Let a capture count again that was put away.")
        .argument("<capture>", "its number, as “captures list --away” tells it")
        .action((capture: string, options: CommonOptions) =>
          withEach(options, (context) => {
            const outcome = takeBackCapture(context, { captureId: idOf(capture) });
            end(answer(terminal, options, outcome, "counts again, and waits to be measured anew."));
          }),
        ),
    );
}

const common = (command: Command): Command => command.option(...COLLECTION).option(...JSON_ANSWER);

function idOf(text: string): number {
  if (!/^[1-9]\d{0,14}$/.test(text)) throw new Ending(EXIT.usage, `“${text}” is no capture's number. “captures list” tells the numbers.`);
  return Number(text);
}

function list(context: Context, terminal: Terminal, { print: objectNumber, away, json }: ListOptions): ExitCode {
  if (objectNumber !== undefined && away) throw new Ending(EXIT.usage, "Say --print or --away, not both.");
  if (away) {
    const captures = listPutAway(context.db);
    const lines = captures.map(
      ({ captureId, name, print, at, who, reason }) =>
        `${line(captureId, name)}  ${print?.objectNumber ?? "no print"}, put away ${at.slice(0, 10)} by ${who ?? "nobody named"}: ${reason.replaceAll("\n", " ")}\n`,
    );
    return tell(terminal, json, captures, lines, "No capture was put away.\n");
  }
  const print = objectNumber === undefined ? null : findPrintByNumber(context.db, objectNumber);
  if (objectNumber !== undefined && !print) throw new Ending(EXIT.usage, `There is no print ${objectNumber}.`);
  const captures = print ? listCapturesOfPrint(context.db, print.id) : listTray(context.db);
  const told = captures.map(({ id, name, side }) => ({ captureId: id, name, side, objectNumber: print?.objectNumber ?? null }));
  const heading = print ? `Of print ${print.objectNumber}:\n` : "In the tray, of no print yet:\n";
  const lines = told.map(({ captureId, name, side }) => `${line(captureId, name)}${print ? `  ${side}` : ""}\n`);
  return tell(
    terminal,
    json,
    told,
    lines.length === 0 ? [] : [heading, ...lines],
    print ? "This print has no capture.\n" : "The tray is empty.\n",
  );
}

const line = (captureId: number, name: string): string => `${String(captureId).padStart(6)}  ${shownName(name)}`;

function tell(terminal: Terminal, json: boolean | undefined, all: readonly unknown[], lines: readonly string[], none: string): ExitCode {
  if (json) answerJson(terminal, all);
  else terminal.answer(lines.length === 0 ? none : lines.join(""));
  return EXIT.done;
}

function answer(terminal: Terminal, { json }: CommonOptions, outcome: Outcome<{ captureId: number }>, done: string): ExitCode {
  if (!outcome.ok) {
    for (const refusal of outcome.refusals) terminal.tell(`${refusalLine(refusal)}\n`);
    return EXIT.fellShort;
  }
  if (json) answerJson(terminal, outcome.value);
  else terminal.answer(`Capture ${outcome.value.captureId} ${done}\n`);
  return EXIT.done;
}
