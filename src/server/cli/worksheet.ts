import { Command } from "commander";
import { METHOD_LABELS } from "#domain/capture/method.ts";
import { placesOnSheet } from "#domain/recapture/sheet-order.ts";
import { isAway } from "#domain/recapture/work-sheet.ts";
import { MOST_SHEET_ROWS, workSheetInput } from "#domain/recapture/work-sheet-input.ts";
import { pathInWords } from "#domain/storage/place-tree.ts";
import {
  findWorkSheet,
  listWorkSheets,
  rowsOfWorkSheet,
  type WorkSheetListed,
  type WorkSheetRowListed,
} from "#drizzle/queries/work-sheets.ts";
import { countsInWords } from "#views/pages/work-sheets.tsx";
import { makeWorkSheet } from "../actions/make-work-sheet.ts";
import { putAwayWorkSheet } from "../actions/put-away-work-sheet.ts";
import type { Context } from "../context.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { placeNamed } from "./place-named.ts";
import { answerJson, counted, refusalLine, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, JSON_ANSWER, withCollection } from "./with-collection.ts";

type MakeOptions = CommonOptions & {
  readonly purpose?: string;
  readonly place?: string;
  readonly why?: string;
  readonly most?: string;
  readonly name?: string;
};

export function worksheetCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  const withEach = (options: CommonOptions, use: (context: Context) => void) =>
    withCollection(collectionDirectory(terminal, options), {}, use);
  return new Command("worksheet")
    .description("Make, list, show and put away work sheets: the recapture list in the order of the work, kept until it is done.")
    .addCommand(
      common(new Command("make"))
        .description("Make a work sheet of what is to be captured again now.")
        .option("--purpose <KEY>", "purpose of the masters; the first where left away")
        .option("--place <NAME>", "only this place and what is inside it")
        .option("--why <REASON>", "only no-capture, or only falls-short")
        .option("--most <NUMBER>", `no more than so many rows, the most urgent; ${MOST_SHEET_ROWS} where left away`)
        .option("--name <NAME>", "its name; purpose, place and day where left away")
        .action((options: MakeOptions) => withEach(options, (context) => end(make(context, terminal, options)))),
    )
    .addCommand(
      common(new Command("list"))
        .description("List the work sheets, the newest first.")
        .action((options: CommonOptions) =>
          withEach(options, (context) => {
            const sheets = listWorkSheets(context.db);
            if (options.json) answerJson(terminal, sheets);
            else terminal.answer(sheets.length === 0 ? "No work sheet was made yet.\n" : sheets.map(line).join(""));
            end(EXIT.done);
          }),
        ),
    )
    .addCommand(
      common(new Command("show"))
        .description("Show a work sheet.")
        .argument("<number>", "its number, as list tells it")
        .action((number: string, options: CommonOptions) =>
          withEach(options, (context) => {
            show(context, terminal, sheetNumbered(context, number), options);
            end(EXIT.done);
          }),
        ),
    )
    .addCommand(
      common(new Command("put-away"))
        .description("Put a work sheet out of sight whose rows are all done. Nothing of it is lost.")
        .argument("<number>", "its number, as list tells it")
        .action((number: string, options: CommonOptions) =>
          withEach(options, (context) => end(move(context, terminal, number, "put-away", options))),
        ),
    )
    .addCommand(
      common(new Command("take-out"))
        .description("Take out a work sheet again that was put away.")
        .argument("<number>", "its number, as list tells it")
        .action((number: string, options: CommonOptions) =>
          withEach(options, (context) => end(move(context, terminal, number, "take-out", options))),
        ),
    );
}

const common = (command: Command): Command => command.option(...COLLECTION).option(...JSON_ANSWER);

function make(context: Context, terminal: Terminal, options: MakeOptions): ExitCode {
  const { purpose = "", place, why = "", most = "", name = "" } = options;
  const placeId = place === undefined ? "" : String(placeNamed(context, place));
  const read = workSheetInput.safeParse({ purpose, placeId, why, most, name });
  if (!read.success)
    throw new Ending(EXIT.usage, read.error.issues.map(({ path, message }) => `--${path.join(".")}: ${message}`).join("\n"));
  const made = makeWorkSheet(context, read.data);
  if (!made.ok) {
    for (const refusal of made.refusals) terminal.tell(`${refusalLine(refusal)}\n`);
    return EXIT.fellShort;
  }
  const sheet = findWorkSheet(context.db, made.value.sheetId);
  if (sheet) show(context, terminal, sheet, options);
  if (made.value.onOtherSheets > 0) terminal.tell(`${made.value.onOtherSheets} wait on another work sheet already and were left out.\n`);
  if (made.value.lessUrgent > 0) terminal.tell(`${made.value.lessUrgent} that are less urgent were left out; they stay on the list.\n`);
  return EXIT.done;
}

function sheetNumbered(context: Context, number: string): WorkSheetListed {
  const sheet = /^\d{1,12}$/.test(number) ? findWorkSheet(context.db, Number(number)) : null;
  if (!sheet) throw new Ending(EXIT.usage, `There is no work sheet ${number}. “worksheet list” tells their numbers.`);
  return sheet;
}

/** Puts a sheet away or takes it out, and tells it as it is listed then. */
function move(context: Context, terminal: Terminal, number: string, step: "put-away" | "take-out", { json }: CommonOptions): ExitCode {
  const { id } = sheetNumbered(context, number);
  const moved = putAwayWorkSheet(context, id, step);
  if (!moved.ok) {
    for (const refusal of moved.refusals) terminal.tell(`${refusalLine(refusal)}\n`);
    return EXIT.fellShort;
  }
  const sheet = sheetNumbered(context, number);
  if (json) answerJson(terminal, sheet);
  else terminal.answer(line(sheet));
  return EXIT.done;
}

function show(context: Context, terminal: Terminal, sheet: WorkSheetListed, options: CommonOptions): void {
  const rows = rowsOfWorkSheet(context.db, sheet.id);
  if (options.json) answerJson(terminal, { ...sheet, rows });
  else terminal.answer(inWords(sheet, rows));
}

const line = (sheet: WorkSheetListed): string =>
  `${String(sheet.id).padStart(4)}  ${sheet.createdAt.slice(0, 10)}  ${sheet.name}: ${countsInWords(sheet.counts)}${isAway(sheet) ? ", put away" : ""}\n`;

/** The sheet as it is carried to the stand: a heading for each box and each set-up, a block for each print. */
function inWords(sheet: WorkSheetListed, rows: readonly WorkSheetRowListed[]): string {
  const text = [`Work sheet ${sheet.id}: ${sheet.name}. ${counted(rows.length, "row", "rows")}, ${countsInWords(sheet.counts)}.`];
  for (const { placePath, setUps } of placesOnSheet(rows)) {
    text.push("", placePath.length === 0 ? "Place not known" : pathInWords(placePath));
    for (const { method, setUpName, rows: within } of setUps) {
      text.push(` ${method ? METHOD_LABELS[method] : "Ask a conservator first"}${setUpName ? `: ${setUpName}` : ""}`);
      text.push(...within.flatMap(block));
    }
  }
  return `${text.join("\n")}\n`;
}

const STATES = { open: "[ ]", ticked: "[/]", closed: "[x]", "let-go": "[-]" } as const;

function block({ state, objectNumber, side, title, priority, reasons, advice }: WorkSheetRowListed): string[] {
  const { need, care, significance } = priority.factors;
  const head = `  ${STATES[state]} ${objectNumber}${side === "back" ? ", back" : ""}${title === "" ? "" : ` ${title}`}`;
  const factors = `priority ${priority.score} = need ${need.score} x care ${care.score} x significance ${significance.score}`;
  if (state === "closed" || state === "let-go") return [head];
  return [
    `${head} (${factors})`,
    ...reasons.flatMap((reason) => [`      ${reason.sentence}`, ...reason.advice.map(({ sentence }) => `        > ${sentence}`)]),
    ...advice.map(({ sentence }) => `      > ${sentence}`),
  ];
}
