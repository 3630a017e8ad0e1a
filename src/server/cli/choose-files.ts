import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import { type ChoiceReport, choiceReport } from "#domain/master/choice-report.ts";
import { surenessInWords } from "#domain/master/doubt-in-words.ts";
import { refusedFile } from "#domain/refused-file.ts";
import { comparePlainFiles } from "../plain-files/measure-plain-files.ts";
import type { SaidOfPrint } from "../plain-files/read-plain-file.ts";
import { type FilesMeasured, measureFiles } from "./measure-files.ts";
import { shownName, type Terminal } from "./terminal.ts";

/** Chooses among files beside no collection, captures of one side of one print, by the ready-made aims: for programs one JSON object a purpose, a line each, and one for each file refused. */
export async function answerChoice(
  terminal: Terminal,
  named: readonly string[],
  said: SaidOfPrint,
  { json, purpose }: { json: boolean; purpose: string | null },
): Promise<FilesMeasured & { readonly hasAll: boolean }> {
  const all = await measureFiles(terminal, named, said, {
    areCompared: true,
    onRefused: (file, refusal) => {
      if (json) terminal.answer(`${JSON.stringify(refusedFile(file, refusal))}\n`);
    },
  });
  const candidates = (await comparePlainFiles(all.measured)).map(({ file, readings }, captureId) => ({
    captureId,
    fileName: json ? file : shownName(file),
    readings: new Map(readings.map((reading) => [reading.name, reading])),
  }));
  const reports = PUBLISHED_AIMS.filter((aim) => purpose === null || aim.purpose.key === purpose).map((aim) =>
    choiceReport(candidates, aim),
  );
  if (json) for (const report of reports) terminal.answer(`${JSON.stringify(report)}\n`);
  else terminal.answer(reports.map(inWords).join("\n"));
  return { ...all, hasAll: reports.every(({ master }) => master !== null) };
}

function inWords({ purpose, sentence, turn, order, ...doubt }: ChoiceReport): string {
  const lines = order.map(({ file, overall, shortfalls, beatenBy }, index) => {
    const standing = overall === null ? "nothing to judge" : `${Math.round(overall * 100)} of 100`;
    const why = [...shortfalls, ...(beatenBy === null ? [] : [`${beatenBy} is as good or better in everything shown`])];
    return `  ${index + 1}. ${file}  ${standing}${why.length > 0 ? `; ${why.join("; ")}` : ""}`;
  });
  const sure = surenessInWords(doubt, doubt.master !== null);
  const why = [sentence, sure, turn?.sentence].filter((each) => each != null).join(" ");
  return `${purpose}: ${why}\n${lines.join("\n")}\n`;
}
