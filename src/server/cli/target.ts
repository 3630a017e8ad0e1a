import { createReadStream } from "node:fs";
import { access, readFile } from "node:fs/promises";
import path from "node:path";
import { Command } from "commander";
import { boundInWords } from "#domain/aim/measure-words.ts";
import { TARGET_MEASURES } from "#domain/aim/target-measures.ts";
import { CORNERS, cornerField, cornersTyped } from "#domain/capture/corner-fields.ts";
import type { Quad } from "#domain/measure/picture.ts";
import type { Refusal } from "#domain/outcome.ts";
import { CHECK_WORDS, evenSheetInput, targetCheckInput } from "#domain/target/check-input.ts";
import type { KeptTargetRead } from "#domain/target/kept-read.ts";
import { findSetUpByName } from "#drizzle/queries/set-ups.ts";
import { findTargetCheck } from "#drizzle/queries/target-checks.ts";
import { checkTarget } from "../actions/check-target.ts";
import type { Context } from "../context.ts";
import { copyIn } from "../intake/copy-in.ts";
import { refusalsOf } from "../routes/form.ts";
import { CORNERS_FIELD, NOT_FOUND, readTargetFile } from "../target/read-target-file.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { answerJson, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, JSON_ANSWER, withCollection } from "./with-collection.ts";

type Options = CommonOptions & {
  readonly layout?: string;
  readonly reference?: string;
  readonly evenSheet?: boolean;
  readonly corners?: string;
  readonly setUp?: string;
  readonly takenOn?: string;
  readonly note?: string;
};

export function targetCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  return new Command("target")
    .description("Read a picture of a test target, and with --set-up keep it as a check of that set-up.")
    .argument("<file>")
    .option("--layout <FILE>", hint("layout"))
    .option("--reference <FILE>", hint("reference"))
    .option("--even-sheet", "the picture shows no target but a plain white or grey sheet that fills the frame: evenness alone is read")
    .option("--corners <X,Y …>", "corners of the target in pixels where it is not found: four pairs, clockwise from the top left as seen")
    .option("--set-up <NAME>", "keep it in the collection as a check of this set-up")
    .option("--taken-on <DAY>", `with --set-up: ${hint("takenOn")}`)
    .option("--note <TEXT>", `with --set-up: ${hint("note")}`)
    .option(...COLLECTION)
    .option(...JSON_ANSWER)
    .action(async (file: string, options: Options) => {
      await access(file).catch(() => {
        throw new Ending(EXIT.usage, `${file} is not there, or may not be read. Check its name.`);
      });
      if (options.evenSheet && (options.layout !== undefined || options.reference !== undefined))
        throw new Ending(EXIT.usage, "--even-sheet goes without --layout and --reference: a plain sheet has neither.");
      const input = (options.evenSheet ? evenSheetInput : targetCheckInput).safeParse({
        layout: await textOf(options.layout),
        reference: await textOf(options.reference),
        referenceName: options.reference ? path.basename(options.reference) : "",
        takenOn: options.takenOn ?? "",
        note: options.note ?? "",
      });
      if (!input.success) throw new Ending(EXIT.usage, inLines(refusalsOf(input.error)));
      const { layout, reference } = input.data;
      const saidSheet = options.corners === undefined ? null : cornersIn(options.corners);
      if (options.setUp === undefined) {
        const read = await readTargetFile({ path: file, name: file, layout, reference, saidSheet });
        if (!read.ok) throw new Ending(EXIT.fellShort, inLines(read.refusals));
        if (read.value === null) throw new Ending(EXIT.fellShort, inLines([{ about: file, ...NOT_FOUND }]));
        answer(read.value, options);
      } else {
        await withCollection(collectionDirectory(terminal, options), {}, async (context) => {
          const setUpId = setUpNamed(context, options.setUp ?? "");
          const name = path.basename(file);
          const copied = await copyIn(context.folder, createReadStream(file), name);
          if (!copied.ok) throw new Ending(EXIT.fellShort, inLines(copied.refusals));
          const checked = await checkTarget(context, {
            setUpId,
            copied: copied.value,
            name,
            input: input.data,
            saidSheet,
            mayWait: false,
          });
          if (!checked.ok) throw new Ending(EXIT.fellShort, inLines(checked.refusals));
          const kept = findTargetCheck(context.db, checked.value.checkId);
          if (kept?.read) answer(kept.read, options);
          terminal.tell(`Kept as a check of ${options.setUp}, taken on ${kept?.takenOn}; it can be taken out on the page of its checks.\n`);
        });
      }
      end(EXIT.done);
    });

  function answer(read: KeptTargetRead, options: Options): void {
    if (options.json) answerJson(terminal, read);
    else terminal.answer(inWords(read));
  }
}

function hint(part: keyof typeof CHECK_WORDS): string {
  const words = CHECK_WORDS[part].hint;
  return `${words[0]?.toLowerCase()}${words.slice(1)}`;
}

async function textOf(file: string | undefined): Promise<string> {
  if (file === undefined) return "";
  return readFile(file, "utf8").catch(() => {
    throw new Ending(EXIT.usage, `${file} cannot be read. Check its name, and that you may read it.`);
  });
}

/** Four pairs of numbers, in the order of the form. */
function cornersIn(text: string): Quad {
  const pairs = text.trim().split(/\s+/);
  const typed = Object.fromEntries(
    CORNERS.flatMap((corner, index) => {
      const [x = "", y = ""] = (pairs[index] ?? "").split(",");
      return [
        [cornerField(1, corner, "x"), x],
        [cornerField(1, corner, "y"), y],
      ];
    }),
  );
  const corners = pairs.length === CORNERS.length ? cornersTyped(typed, 1) : null;
  if (!corners)
    throw new Ending(
      EXIT.usage,
      'Write --corners as four pairs of pixels, clockwise from the top left: "120,80 2900,95 2880,2010 110,1990".',
    );
  return corners;
}

function setUpNamed(context: Context, name: string): number {
  const setUp = findSetUpByName(context.db, name.trim());
  if (!setUp) throw new Ending(EXIT.usage, `No set-up is called ${name}. Describe it on the page Set-ups first.`);
  return setUp.id;
}

const inLines = (refusals: readonly Refusal[]): string =>
  refusals.map(({ about, happened, remedy }) => `${about === null ? "" : `${optionOf(about)}: `}${happened} ${remedy}`.trim()).join("\n");

/** What a field of the form is called here; a file keeps its name. */
const optionOf = (about: string): string => OPTIONS[about] ?? about;
const OPTIONS: Readonly<Record<string, string>> = {
  layout: "--layout",
  reference: "--reference",
  takenOn: "--taken-on",
  note: "--note",
  [CORNERS_FIELD]: "--corners",
};

const inWords = ({ readings, ppi, edges }: KeptTargetRead): string =>
  [
    ...(ppi ? [`Sampling: ${Math.round(ppi.x)} x ${Math.round(ppi.y)} ppi`] : []),
    ...readings.map((reading) => {
      const { label, meaning } = TARGET_MEASURES[reading.name];
      return "value" in reading
        ? `${label}: ${boundInWords(reading.name, reading.value, reading.bound ?? null)}. ${meaning}${reading.note ? ` ${reading.note}` : ""}`
        : `${label}: not read, ${reading.absent}`;
    }),
    ...edges.map(
      ({ id, part, direction, refused, sfr50CyPerMm, sfr10CyPerMm }) =>
        `  ${id} (${part}, ${direction}): ${refused ?? `SFR 50 % at ${fineness(sfr50CyPerMm)}, 10 % at ${fineness(sfr10CyPerMm)}`}`,
    ),
    "",
  ].join("\n");

const fineness = (cyPerMm: number | null): string => (cyPerMm === null ? "more than is told" : `${cyPerMm.toFixed(2)} cy/mm`);
