import { type Command, InvalidArgumentError, Option } from "commander";
import { METHODS, type Method } from "#domain/capture/method.ts";
import { FORMATS, findFormat } from "#domain/print/format.ts";
import { formatsMeant } from "#domain/print/format-meant.ts";
import { findProcess, PROCESSES } from "#domain/print/process.ts";
import type { SaidOfPrint } from "../plain-files/read-plain-file.ts";

export type PrintOptions = {
  readonly format?: string;
  readonly sheetMm?: { widthMm: number; heightMm: number };
  readonly method?: Method;
};

/** What may be said of the print where files are measured without a collection. */
export const withPrintOptions = (command: Command): Command =>
  command
    .option("--format <FORMAT>", "files: the print's format, by its name in the list that the command formats tells", knownFormat)
    .option("--sheet-mm <WxH>", "files: the sheet as measured with a ruler, e.g. 88.5x107.5; wins over the format", sizeInMm)
    .addOption(new Option("--method <METHOD>", "files: how they were made; guessed where left away").choices([...METHODS]));

export const saidOfPrint = ({ format, sheetMm, method }: PrintOptions): SaidOfPrint => ({
  formatId: format ?? null,
  sheetMm: sheetMm ?? null,
  method: method ?? null,
});

export function knownProcess(text: string): string {
  if (!findProcess(text)) throw new InvalidArgumentError(`The processes are: ${PROCESSES.map(({ id }) => id).join(", ")}.`);
  return text;
}

export function knownFormat(text: string): string {
  if (!findFormat(text)) {
    const meant = formatsMeant(text).map(({ id }) => id);
    const nearest = meant.length === 0 ? "" : `The nearest are: ${meant.join(", ")}. `;
    throw new InvalidArgumentError(`There is no such format. ${nearest}“formats” lists all ${FORMATS.length} with their sizes.`);
  }
  return text;
}

const LONGEST_MM = 3000;

function sizeInMm(text: string): { widthMm: number; heightMm: number } {
  const read = /^(\d+(?:\.\d+)?)\s*[x×]\s*(\d+(?:\.\d+)?)$/.exec(text.trim());
  const [widthMm, heightMm] = [Number(read?.[1]), Number(read?.[2])];
  if (!(widthMm > 0 && heightMm > 0 && widthMm <= LONGEST_MM && heightMm <= LONGEST_MM))
    throw new InvalidArgumentError("Give width and height in mm, such as 88.5x107.5.");
  return { widthMm, heightMm };
}
