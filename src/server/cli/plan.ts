import { Command, InvalidArgumentError } from "commander";
import { purposeInSentence } from "#domain/aim/aim.ts";
import type { SetUp } from "#domain/capture/set-up.ts";
import type { Refusal } from "#domain/outcome.ts";
import { ARRANGEMENT_LABELS, arrangementInput, typedFromArrangement } from "#domain/plan/arrangement.ts";
import { FIGURE_CHOICES, FIGURE_UNITS, type FigureName } from "#domain/plan/figure-units.ts";
import { JOB_LABELS, jobInput } from "#domain/plan/job-input.ts";
import type { SizePlan } from "#domain/plan/plan-capture.ts";
import { findSetUpByName, listSetUps } from "#drizzle/queries/set-ups.ts";
import { type PlannedCaptures, planCaptures, refusalsOfPlannedNumber } from "../actions/plan-captures.ts";
import type { Context } from "../context.ts";
import { refusalsOf } from "../routes/form.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { answerJson, counted, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, JSON_ANSWER, withCollection } from "./with-collection.ts";

type Figures = Readonly<Record<string, string>>;
type Options = CommonOptions & { readonly setUp?: string; readonly purpose?: string; readonly figure?: Figures };

const NAMES = [...Object.keys(JOB_LABELS), ...Object.keys(ARRANGEMENT_LABELS)] as FigureName[];

export function planCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  return new Command("plan")
    .description("Work out what a set-up can do for a print, a size, or every print to be captured again, before anything is set up.")
    .option("--set-up <NAME>", "start from the figures kept with this set-up")
    .option("--purpose <KEY>", "what the captures are for; preservation-master where left away")
    .option("--figure <NAME=VALUE>", "a figure of the plan, as often as needed", figure)
    .option(...COLLECTION)
    .option(...JSON_ANSWER)
    .addHelpText("after", `\nFigures:\n${FIGURES_LISTED}\nWithout objectNumber or a size, every print on the recapture list is planned.`)
    .action(async (options: Options) => {
      await withCollection(collectionDirectory(terminal, options), {}, (context) => {
        const setUp = options.setUp === undefined ? null : setUpNamed(context, options.setUp);
        const typed: Figures = {
          ...(setUp?.priceCurrency ? { currency: setUp.priceCurrency } : {}),
          ...(setUp?.arrangement ? typedFromArrangement(setUp.arrangement) : {}),
          ...options.figure,
        };
        const [arrangement, job] = [arrangementInput.safeParse(typed), jobInput.safeParse(typed)];
        if (!arrangement.success || !job.success) {
          const unread = [arrangement, job].flatMap((read) => (read.success ? [] : refusalsOf(read.error)));
          const refusals = [...refusalsOfPlannedNumber(context, typed.objectNumber), ...unread];
          throw new Ending(EXIT.usage, refusals.map(refusalInWords).join("\n"));
        }
        const planned = planCaptures(context, {
          arrangement: arrangement.data,
          job: job.data,
          setUpId: setUp?.id ?? null,
          purposeKey: options.purpose ?? null,
        });
        if (!planned.ok) throw new Ending(EXIT.usage, planned.refusals.map(refusalInWords).join("\n"));
        if (options.json) answerJson(terminal, planned.value);
        else terminal.answer(inWords(planned.value));
        end(planned.value.plan.sizes.every(({ reach }) => reach !== "short") ? EXIT.done : EXIT.fellShort);
      });
    });
}

/** What a figure is called, and its unit or what may be chosen. */
function meaningOf(name: FigureName): string {
  const choices = FIGURE_CHOICES[name];
  const unit = choices ? choices.join(", ") : FIGURE_UNITS[name];
  const labels: Readonly<Record<FigureName, string>> = { ...JOB_LABELS, ...ARRANGEMENT_LABELS };
  return unit ? `${labels[name]} (${unit})` : labels[name];
}

const FIGURES_LISTED = NAMES.map((name) => `  ${name.padEnd(22)}${meaningOf(name)}`).join("\n");

/** A refusal names the figure as it is written here. */
function refusalInWords({ about, happened, remedy }: Refusal): string {
  const name = NAMES.find((known) => known === about);
  return `${name ? `--figure ${name}=…, ${meaningOf(name)}: ` : ""}${happened} ${remedy}`.trim();
}

function figure(text: string, before: Figures | undefined): Figures {
  const at = text.indexOf("=");
  const name = text.slice(0, at).trim();
  if (at < 1 || !NAMES.some((known) => known === name))
    throw new InvalidArgumentError(`Write a figure as NAME=VALUE, such as scannerPpi=600. The names:\n${FIGURES_LISTED}`);
  return { ...before, [name]: text.slice(at + 1) };
}

function setUpNamed(context: Context, name: string): SetUp {
  const setUp = findSetUpByName(context.db, name.trim());
  if (setUp) return setUp;
  const known = listSetUps(context.db).map((each) => each.name);
  throw new Ending(
    EXIT.usage,
    `No set-up has that name. ${known.length === 0 ? "None is described yet." : `There are: ${known.join("; ")}.`}`,
  );
}

function inWords({ plan, printCount, purpose, asked, withoutSize, stopped, effort, currency }: PlannedCaptures): string {
  return [
    `${counted(printCount, "print", "prints")} for ${purposeInSentence(purpose)}: ${asked.leastPpi} ppi required, ${asked.aimedPpi} ppi aimed at.`,
    ...plan.sizes.flatMap(block),
    ...stopped.map(({ objectNumber, caution }) => `Stop: ${objectNumber} must not be captured this way. ${caution}.`),
    ...(withoutSize.length === 0 ? [] : [`Without a known size, left out: ${withoutSize.join(", ")}.`]),
    `Files: ${Math.ceil(plan.bytes / 1e6)} MB uncompressed.${effort ? ` Time: ${effort.hours.toFixed(1)} hours.` : ""}${effort?.costOfAll == null ? "" : ` Cost: ${effort.costOfAll.toFixed(2)}${currency === null ? ", in a currency that nobody wrote" : ` ${currency}`}.`}`,
    "",
  ].join("\n");
}

function block({ size, ppi, camera, warnings }: SizePlan): string[] {
  const where = camera ? `, lens ${Math.round(camera.lensMm)} mm above the print` : "";
  const opening = camera?.aperture.used ? `, f/${camera.aperture.used.fNumber}` : "";
  return [
    "",
    `${Math.round(size.widthMm)} x ${Math.round(size.heightMm)} mm (${size.prints.map(({ label }) => label).join(", ")}): ${Math.floor(ppi)} ppi${where}${opening}`,
    ...warnings.map(({ weight, text, remedy }) => `  ${weight === "mind" ? "Mind" : "In the way"}: ${text}\n    > ${remedy}`),
  ];
}
