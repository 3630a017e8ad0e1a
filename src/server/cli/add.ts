import { createReadStream } from "node:fs";
import { Command, InvalidArgumentError, Option } from "commander";
import { SIDES, type Side } from "#domain/capture/capture.ts";
import { METHODS, type Method } from "#domain/capture/method.ts";
import { type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import { isDay } from "#domain/print/calendar.ts";
import { findPrint, findPrintByNumber } from "#drizzle/queries/prints.ts";
import { findSetUpByName } from "#drizzle/queries/set-ups.ts";
import { takeInCapture } from "../actions/take-in-capture.ts";
import type { Context } from "../context.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { type FoundFile, findFiles } from "./find-files.ts";
import { showProgress } from "./progress.ts";
import { answerJson, counted, refusalLine, type Terminal } from "./terminal.ts";
import { type CommonOptions, collectionDirectory, JSON_ANSWER, withCollection } from "./with-collection.ts";

type Options = CommonOptions & {
  readonly print?: string;
  readonly side?: Side;
  readonly method?: Method;
  readonly setUp?: string;
  readonly capturedOn?: string;
  readonly despite?: string;
};

type Added = {
  takenIn: { file: string; captureId: number; objectNumber: string | null; alreadyHeld: boolean; notes: readonly string[] }[];
  refused: { file: string; happened: string; remedy: string }[];
  /** files not looked at, because the keeper stopped */
  left: number;
};

export function addCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  return new Command("add")
    .description(
      "Take in files, and all files in folders. A name that begins with an object number finds its print; other files wait in the tray.",
    )
    .argument("<files or folders...>")
    .option("--print <NUMBER>", "they all show this print")
    .addOption(new Option("--side <SIDE>", "the side they show; read from the name where left away, else the front").choices([...SIDES]))
    .addOption(new Option("--method <METHOD>", "how they were made; guessed from the file where left away").choices([...METHODS]))
    .option("--set-up <NAME>", "the set-up they were made with")
    .option("--captured-on <DAY>", "the day on which they were made, as 2009-05-31; as each file says where left away", dayOption)
    .option("--despite <REASON>", "why they were made so although a caution forbids the method for the print; kept in the history")
    .option("--collection <DIR>", "folder of the collection (or SOLANDER_COLLECTION); made when it is new")
    .option(...JSON_ANSWER)
    .action(async (named: string[], options: Options) => {
      const { files, refusals } = await findFiles(named);
      await withCollection(collectionDirectory(terminal, options), { mayBeNew: true }, async (context) => {
        const added = await addAll(context, terminal, files, said(context, options));
        added.refused.unshift(...refusals.map(asRefused));
        if (options.json) answerJson(terminal, added);
        else terminal.answer(inWords(added));
        end(added.refused.length > 0 || added.left > 0 ? EXIT.fellShort : EXIT.done);
      });
    });
}

type Said = { printId?: number; side?: Side; method?: Method; setUpId?: number; saidDay?: string; despite?: string };

function dayOption(text: string): string {
  if (!isDay(text)) throw new InvalidArgumentError("Write the day as 2009-05-31.");
  return text;
}

/** What the options say of every file. */
function said(context: Context, { print, side, method, setUp, capturedOn, despite }: Options): Said {
  const found = print === undefined ? null : findPrintByNumber(context.db, print);
  if (print !== undefined && !found)
    throw new Ending(EXIT.usage, `There is no print ${print} in this collection. Check the number, or enter the print first.`);
  const named = setUp === undefined ? null : findSetUpByName(context.db, setUp);
  if (setUp !== undefined && !named)
    throw new Ending(EXIT.usage, `There is no set-up called ${setUp}. Check the name, or describe the set-up first.`);
  const made = method ?? named?.method;
  return {
    ...(found && { printId: found.id }),
    ...(side && { side }),
    ...(made && { method: made }),
    ...(named && { setUpId: named.id }),
    ...(capturedOn && { saidDay: capturedOn }),
    ...(despite?.trim() && { despite: despite.trim() }),
  };
}

/** One file after the other; one that is refused never stops the rest. */
async function addAll(context: Context, terminal: Terminal, files: readonly FoundFile[], about: Said): Promise<Added> {
  const added: Added = { takenIn: [], refused: [], left: 0 };
  const progress = showProgress(terminal, "Taking in");
  for (const [index, file] of files.entries()) {
    if (terminal.stop.aborted) {
      added.left = files.length - index;
      break;
    }
    progress.show(index, files.length);
    const outcome = await takeInCapture(context, { source: createReadStream(file.path), originalName: file.name, ...about }).catch(
      (error: unknown) => faultOf(terminal, error),
    );
    if (!outcome.ok) added.refused.push(...outcome.refusals.map((refusal) => asRefused({ ...overruledHere(refusal), about: file.path })));
    else {
      const { captureId, printId, alreadyHeld, notes } = outcome.value;
      const objectNumber = printId === null ? null : (findPrint(context.db, printId)?.objectNumber ?? null);
      added.takenIn.push({ file: file.path, captureId, objectNumber, alreadyHeld, notes });
    }
  }
  progress.show(files.length - added.left, files.length);
  progress.end();
  return added;
}

/** How a caution is overruled on the command line. */
const overruledHere = (refusal: Refusal): Refusal =>
  refusal.about === "despite" ? { ...refusal, remedy: `${refusal.remedy} Here it is said with --despite "REASON".` } : refusal;

/** A defect met with one file is told, and the next one comes. */
function faultOf(terminal: Terminal, error: unknown): Outcome<never> {
  terminal.tell(`${error instanceof Error ? error.stack : error}\n`);
  return refused({
    about: null,
    happened: "The program met a fault of its own with this file.",
    remedy: "Add it once more by itself; if it fails again, report the lines above.",
  });
}

const asRefused = ({ about, happened, remedy }: Refusal) => ({ file: about ?? "", happened, remedy });

function inWords({ takenIn, refused, left }: Added): string {
  const fresh = takenIn.filter((each) => !each.alreadyHeld);
  const inTray = fresh.filter((each) => each.objectNumber === null).length;
  const lines = [
    ...takenIn.flatMap(({ file, notes }) => notes.map((note) => `${file}: ${note}`)),
    ...refused.map(({ file, happened, remedy }) => refusalLine({ about: file, happened, remedy })),
    `${counted(fresh.length, "capture", "captures")} taken in${inTray > 0 ? `, ${inTray} of them in the tray` : ""}.`,
  ];
  const held = takenIn.length - fresh.length;
  if (held > 0) lines.push(`${counted(held, "file was", "files were")} held already; nothing is stored twice.`);
  if (refused.length > 0) lines.push(`${counted(refused.length, "file was", "files were")} refused.`);
  if (left > 0)
    lines.push(
      `Stopped; ${counted(left, "file was", "files were")} not looked at. Run the same command to go on: nothing is taken in twice.`,
    );
  if (fresh.length > 0) lines.push("They wait to be measured: “measure” does it, and so does “serve”.");
  return `${lines.join("\n")}\n`;
}
