import path from "node:path";
import { readInWords, spreadInWords } from "#domain/aim/measure-words.ts";
import type { CaptureReport } from "#domain/measure/capture-report.ts";
import { MEASURES } from "#domain/measure/catalogue.ts";
import type { Refusal } from "#domain/outcome.ts";
import { refusedFile } from "#domain/refused-file.ts";
import { measureInOrder } from "../plain-files/measure-in-order.ts";
import { comparePlainFiles, type MeasuredFile, reportOf } from "../plain-files/measure-plain-files.ts";
import type { SaidOfPrint } from "../plain-files/read-plain-file.ts";
import { writeMasks } from "../plain-files/write-masks.ts";
import { type FoundFile, findFiles } from "./find-files.ts";
import { showProgress } from "./progress.ts";
import { refusalLine, shownName, type Terminal } from "./terminal.ts";

export type FilesMeasured = { readonly measured: readonly MeasuredFile[]; readonly refusals: readonly Refusal[]; readonly left: number };

type HowMeasured = {
  /** they are held against each other, and a file against itself would tell nothing */
  readonly areCompared: boolean;
  readonly onMeasured?: (file: MeasuredFile) => Promise<void> | void;
  readonly onRefused?: (file: string, refusal: Refusal) => void;
};

/** Measures the files named, and all in the folders named; one that is refused never stops the rest. */
export async function measureFiles(
  terminal: Terminal,
  named: readonly string[],
  said: SaidOfPrint,
  { areCompared, onMeasured = () => {}, onRefused = () => {} }: HowMeasured,
): Promise<FilesMeasured> {
  const { files: found, refusals } = await findFiles(named);
  for (const refusal of refusals) if (refusal.about !== null) onRefused(refusal.about, refusal);
  const files = areCompared ? eachOnce(terminal, found) : found;
  const measured: MeasuredFile[] = [];
  const progress = showProgress(terminal, "Measuring");
  progress.show(0, files.length);
  let answered = 0;
  const paths = files.map((file) => file.path);
  for await (const outcome of measureInOrder(paths, said, terminal.stop)) {
    const file = paths[answered] as string;
    progress.show(++answered, files.length);
    if (!outcome.ok) {
      refusals.push(...outcome.refusals);
      for (const refusal of outcome.refusals) onRefused(file, refusal);
    } else {
      measured.push(outcome.value);
      await onMeasured(outcome.value);
    }
  }
  progress.end();
  for (const refusal of refusals) terminal.tell(`${refusalLine(refusal)}\n`);
  return { measured, refusals, left: files.length - answered };
}

function eachOnce(terminal: Terminal, found: readonly FoundFile[]): FoundFile[] {
  const seen = new Map<string, FoundFile>();
  for (const file of found) {
    const place = path.resolve(file.path);
    if (seen.has(place)) terminal.tell(`${shownName(file.path)}: It was named more than once, and counts once.\n`);
    else seen.set(place, file);
  }
  return [...seen.values()];
}

/** Measures files beside no collection and answers as they come: for programs one JSON object a file, a line each, refused ones too. */
export async function answerMeasures(
  terminal: Terminal,
  named: readonly string[],
  said: SaidOfPrint,
  { json, together, masks }: { json: boolean; together: boolean; masks: string | null },
): Promise<FilesMeasured> {
  const answer = async (file: MeasuredFile) => {
    if (file.printsFound > 1) terminal.tell(severalFound(file));
    terminal.answer(json ? `${JSON.stringify(reportOf(file))}\n` : inWords(reportOf(file)));
    if (masks !== null) for (const written of await writeMasks(masks, file)) terminal.tell(`${shownName(written)} written.\n`);
  };
  const onRefused = (file: string, refusal: Refusal) => {
    if (json) terminal.answer(`${JSON.stringify(refusedFile(file, refusal))}\n`);
  };
  const how = together ? { areCompared: true, onRefused } : { areCompared: false, onMeasured: answer, onRefused };
  const all = await measureFiles(terminal, named, said, how);
  if (together) for (const file of await comparePlainFiles(all.measured)) await answer(file);
  return all;
}

const severalFound = ({ file, printsFound }: MeasuredFile) =>
  `${shownName(file)}: ${printsFound} prints were found in it, and only the largest was measured. Use divide to find each of them, or put the file into a collection and divide it there.\n`;

function inWords({ file, widthPx, heightPx, measures }: CaptureReport): string {
  const width = Math.max(...measures.map(({ name }) => MEASURES[name].label.length));
  const lines = measures.map((measure) => {
    const label = MEASURES[measure.name].label.padEnd(width);
    if ("absent" in measure) return `  ${label}  not read: ${measure.absent}`;
    const bound = measure.bound === null ? "" : measure.bound === "lower" ? "at least " : "at most ";
    const trust = measure.reliability === "weak" ? " (a hint only)" : "";
    const note = measure.note === null ? "" : `\n  ${" ".repeat(width)}  ${measure.note}`;
    return `  ${label}  ${bound}${readInWords(measure.name, measure.value)}${spreadInWords(measure.name, measure.spread)}${trust}${note}`;
  });
  return `${shownName(file)}  ${widthPx} × ${heightPx} px; ± is one standard uncertainty\n${lines.join("\n")}\n`;
}
