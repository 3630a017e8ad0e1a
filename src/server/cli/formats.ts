import { Command } from "commander";
import { FORMATS } from "#domain/print/format.ts";
import { FORMAT_GROUPS, type FormatGroup, type PrintFormat } from "#domain/print/print-format.ts";
import { EXIT, type ExitCode } from "./exit-code.ts";
import { answerJson, type Terminal } from "./terminal.ts";
import { JSON_ANSWER } from "./with-collection.ts";

const WIDEST_ID = Math.max(...FORMATS.map(({ id }) => id.length));

export function formatsCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  return new Command("formats")
    .description("List the formats by the names that --format takes, with their nominal sizes, width before height.")
    .option(...JSON_ANSWER)
    .action(({ json }: { readonly json?: boolean }) => {
      if (json) answerJson(terminal, FORMATS.map(toldOf));
      else terminal.answer((Object.keys(FORMAT_GROUPS) as FormatGroup[]).map(inWords).join("\n"));
      end(EXIT.done);
    });
}

const toldOf = ({ id, name, group, sheetWidthMm, sheetHeightMm, toleranceMm }: PrintFormat) => ({
  id,
  name,
  group,
  sheetWidthMm,
  sheetHeightMm,
  toleranceMm,
});

function inWords(group: FormatGroup): string {
  const lines = FORMATS.filter((format) => format.group === group).map(
    ({ id, name, sheetWidthMm, sheetHeightMm, toleranceMm }) =>
      `  ${id.padEnd(WIDEST_ID)}  ${sheetWidthMm} × ${sheetHeightMm} mm ± ${toleranceMm}  ${name}\n`,
  );
  return `${FORMAT_GROUPS[group]}\n${lines.join("")}`;
}
