import { Command } from "commander";
import { purposeInSentence } from "#domain/aim/aim.ts";
import type { RecaptureLine } from "#domain/recapture/recapture-line.ts";
import { pathInWords } from "#domain/storage/place-tree.ts";
import { listPurposes } from "#drizzle/queries/aims.ts";
import { recaptureList } from "#drizzle/queries/recapture.ts";
import { waitingForEach } from "../waiting-captures.ts";
import { EXIT, type ExitCode } from "./exit-code.ts";
import { answerJson, counted, shownName, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, JSON_ANSWER, withCollection } from "./with-collection.ts";

type Options = CommonOptions & { readonly allPurposes?: boolean };

/** With the captures in the tray whose names carry the print's number and that side, which nobody has said to be of it yet. */
type ToldLine = RecaptureLine & { readonly inTray: readonly { readonly captureId: number; readonly fileName: string }[] };

export function recaptureCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  return new Command("recapture")
    .description("List the prints whose best capture is not good enough to be preservation master, and what to change.")
    .option("--all-purposes", "for reproduction and screen as well")
    .option(...COLLECTION)
    .option(...JSON_ANSWER)
    .action(async (options: Options) => {
      await withCollection(collectionDirectory(terminal, options), {}, (context) => {
        const lines = recaptureList(context.db, context.now().slice(0, 10), {
          purposes: options.allPurposes ? listPurposes(context.db) : undefined,
        });
        const inTray = waitingForEach(
          context,
          lines.map(({ objectNumber }) => objectNumber),
        );
        const told = lines.map(
          (line): ToldLine => ({
            ...line,
            inTray: (inTray.get(line.objectNumber) ?? [])
              .filter(({ side }) => side === line.side)
              .map(({ capture }) => ({ captureId: capture.id, fileName: capture.name })),
          }),
        );
        if (options.json) answerJson(terminal, told);
        else terminal.answer(workSheet(told));
        end(EXIT.done);
      });
    });
}

/** The list to work from: a heading for each place, a block for each side of a print. */
function workSheet(lines: readonly ToldLine[]): string {
  if (lines.length === 0) return "Nothing has to be captured again.\n";
  const sheet = [`${counted(lines.length, "capture", "captures")} to make.`];
  let place: string | null = null;
  for (const line of lines) {
    const here = line.placePath.length === 0 ? "Place not known" : pathInWords(line.placePath);
    if (here !== place) sheet.push("", here);
    place = here;
    sheet.push(...block(line));
  }
  return `${sheet.join("\n")}\n`;
}

function block(line: ToldLine): string[] {
  const best = line.best ? `best so far ${line.best.fileName}` : "never captured";
  const side = line.side === "back" ? ", back" : "";
  return [
    `  ${line.objectNumber}${side}${line.title === "" ? "" : ` ${line.title}`} (${purposeInSentence({ key: line.purposeKey, name: line.purposeName })}; ${best})`,
    ...(line.inTray.length === 0 ? [] : [`    ${inTrayInWords(line.inTray.map(({ fileName }) => shownName(fileName)))}`]),
    ...(line.stillMeasuring ? ["    Captures of it are still being measured: this may change."] : []),
    ...line.reasons.flatMap((reason) => [`    ${reason.sentence}`, ...reason.advice.map((advice) => `      > ${advice.sentence}`)]),
    ...line.advice.map((advice) => `    > ${advice.sentence}`),
  ];
}

const inTrayInWords = (names: readonly string[]): string =>
  names.length === 1
    ? `In the tray, by its name of this print: ${names[0]}. Say in the tray that it shows the print, and this may change.`
    : `In the tray, by their names of this print: ${names.join(", ")}. Say in the tray which of them show the print, and this may change.`;
