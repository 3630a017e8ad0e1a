import { Command } from "commander";
import { type BedReport, bedReport } from "#domain/capture/bed-report.ts";
import { SIDES } from "#domain/measure/lines.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import { readPlainFile } from "../plain-files/read-plain-file.ts";
import { writeStraightened } from "../plain-files/write-straightened.ts";
import { EXIT, type ExitCode } from "./exit-code.ts";
import { folderFor } from "./folder-for.ts";
import { type PrintOptions, saidOfPrint, withPrintOptions } from "./print-options.ts";
import { refuse } from "./refuse.ts";
import { answerJson, counted, shownName, type Terminal } from "./terminal.ts";
import { JSON_ANSWER } from "./with-collection.ts";

type Options = PrintOptions & { readonly json?: boolean; readonly straightened?: string };

export function divideCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  const command = new Command("divide")
    .description("Find the prints on one scan of several. The file is never changed; in a collection, beds are divided on the tray's page.")
    .argument("<file>")
    .option("--straightened <DIR>", "write each print upright into this folder, as fine as the scan shows it anywhere (PNG, sRGB)")
    .option(...JSON_ANSWER)
    .action(async (file: string, options: Options) => {
      const straightened = options.straightened === undefined ? null : await folderFor(options.straightened);
      const read = await readPlainFile(file, saidOfPrint(options));
      if (!read.ok) {
        for (const refusal of read.refusals) refuse(terminal, [file], refusal, options);
        return end(EXIT.fellShort);
      }
      const { picture, context, sha256 } = read.value;
      const outlines = findOutlines(picture, context);
      const written = straightened === null ? [] : await writeStraightened(straightened, read.value, outlines);
      const report = bedReport({ file, sha256, picture, outlines, context, straightened: written });
      if (options.json) answerJson(terminal, report);
      else terminal.answer(inWords(report));
      end(report.prints.length > 0 ? EXIT.done : EXIT.fellShort);
    });
  return withPrintOptions(command);
}

function inWords({ file, prints }: BedReport): string {
  if (prints.length === 0) return `${shownName(file)}: no print found; ${WOULD_TELL}\n`;
  const lines = prints.flatMap((print, index) => {
    const { left, top, width, height } = print.regionPx;
    const doubt = unsureInWords(print);
    return [
      `  ${index + 1}. ${sizeInWords(print)}; ${width} × ${height} px from ${left}, ${top}${doubt === "" ? "" : ` (${doubt})`}`,
      ...(print.straightened === null ? [] : [`     written to ${shownName(print.straightened)}`]),
    ];
  });
  return `${shownName(file)}: ${counted(prints.length, "print", "prints")} found\n${lines.map((line) => `${line}\n`).join("")}`;
}

const WOULD_TELL =
  "nothing on it stands out from its ground as a sheet does. A lid that is darker or lighter than the rims of the prints would tell, and more room between them.";

/** Which sides are not sure, and why; several of one kind together. */
function unsureInWords({ sides, doubted }: BedReport["prints"][number]): string {
  const unsure = SIDES.filter((side) => sides[side] !== "seen");
  const kindOf = (side: (typeof SIDES)[number]) => {
    if (sides[side] === "cut-off") return "cut off by the frame";
    return doubted.includes(side) ? "seen, but the edge may be something else's" : "not seen, assumed";
  };
  return [...new Set(unsure.map(kindOf))].map((kind) => `${unsure.filter((side) => kindOf(side) === kind).join(", ")} ${kind}`).join("; ");
}

/** By more than this the size that was said and the file's claim are of two prints, or the claim is wrong: both are told. */
const MOST_APART = 0.05;

function sizeInWords({ said, claimed, sides }: BedReport["prints"][number]): string {
  const mm = ({ widthMm, heightMm }: { widthMm: number; heightMm: number }) => `${widthMm.toFixed(1)} × ${heightMm.toFixed(1)} mm`;
  const atLeast = Object.values(sides).includes("cut-off") ? "at least " : "";
  const byFile = claimed && `${atLeast}${mm(claimed)}, by the ${Math.round(claimed.samplingPpi)} ppi that the file claims`;
  if (said === null) return byFile ?? "size not known (--sheet-mm or --format says it)";
  const agree = claimed === null || Math.abs(Math.log(said.samplingPpi / claimed.samplingPpi)) <= MOST_APART;
  return `${mm(said)} as said, ${atLeast}${Math.round(said.samplingPpi)} ppi${agree ? "" : `, or ${byFile}`}`;
}
