import { Command } from "commander";
import { CHANGES } from "#domain/condition/change/change-names.ts";
import type { ChangeReport } from "#domain/condition/change/change-report.ts";
import type { Verdict } from "#domain/condition/change/verdict.ts";
import { changePlainFiles } from "../plain-files/change-plain-files.ts";
import { EXIT, type ExitCode } from "./exit-code.ts";
import { type PrintOptions, saidOfPrint, withPrintOptions } from "./print-options.ts";
import { refuse } from "./refuse.ts";
import { answerJson, shownName, type Terminal } from "./terminal.ts";
import { JSON_ANSWER } from "./with-collection.ts";

type Options = PrintOptions & { readonly json?: boolean };

export function changeCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  const command = new Command("change")
    .description("Tell how a print changed between two captures of one side, with the uncertainty of every figure. Nothing is written.")
    .argument("<older>", "the older file")
    .argument("<newer>", "the newer file")
    .option(...JSON_ANSWER)
    .action(async (older: string, newer: string, options: Options) => {
      const found = await changePlainFiles(older, newer, saidOfPrint(options));
      if (!found.ok) {
        const named = [...new Set([older, newer])];
        for (const refusal of found.refusals) {
          const about = named.filter((file) => file === refusal.about);
          // what only the two together are refused for stands in the line of each
          refuse(terminal, about.length > 0 ? about : named, refusal, options);
        }
        return end(EXIT.fellShort);
      }
      const [before, after] = [found.value.older.capturedAt, found.value.newer.capturedAt];
      if (before !== null && after !== null && before > after)
        terminal.tell(
          `By their own dates, ${shownName(older)} (${before}) is newer than ${shownName(newer)} (${after}). They are told in the order given.\n`,
        );
      if (options.json) answerJson(terminal, found.value);
      else terminal.answer(inWords(found.value));
      end(EXIT.done);
    });
  return withPrintOptions(command);
}

/** What changed first, then the places, and last what stayed within its uncertainty or could not be read. */
function inWords({ older, newer, registration, assumed, numbers, structures }: ChangeReport): string {
  const width = Math.max(...numbers.map(({ name }) => CHANGES[name].label.length));
  const line = (number: ChangeReport["numbers"][number]) => {
    const label = CHANGES[number.name].label.padEnd(width);
    if ("absent" in number) return `  ${label}  ${number.absent}`;
    const digits = number.unit === "D" ? 3 : 1;
    return `  ${label}  ${number.value.toFixed(digits)} ± ${number.expandedUncertainty.toFixed(digits)} ${number.unit}`;
  };
  const judged = (verdict: Verdict) => numbers.filter((number) => "verdict" in number && number.verdict === verdict).map(line);
  const under = (heading: string, lines: readonly string[]) => (lines.length === 0 ? [] : [heading, ...lines]);
  const changed = judged("changed");
  const shared = sharedDoubts(structures.places);
  const places = structures.places.map(
    ({ kind, part, areaMm2, lengthMm, boxMm, deltaE2000, before, doubt }, index) =>
      `  ${index + 1}. ${kind} (${part}) ${areaMm2.toFixed(1)} mm², ${lengthMm.toFixed(1)} mm long, ΔE00 ${deltaE2000.toFixed(1)}, at ${boxMm.left.toFixed(1)}, ${boxMm.top.toFixed(1)} mm. ${before.inWords}${doubt && !shared.has(doubt) ? `. ${doubt}` : ""}`,
  );
  return [
    `${shownName(older.file)} → ${shownName(newer.file)}, laid on each other within ${registration.p95Mm.toFixed(3)} mm`,
    ...assumed.map(
      ({ capture, takenBy, lightness, colour, source }) =>
        `  ${capture}: ${takenBy}; taken to be true within ${lightness} L*, ${colour} in a*b* (${source})`,
    ),
    ...(changed.length === 0 ? ["No figure changed beyond its uncertainty"] : under("Changed beyond the uncertainty", changed)),
    places.length === 0 ? "No new or altered place was found" : `New or altered places: ${structures.inWords}`,
    ...places,
    ...[...shared].map(([doubt, numbers]) => `  Of ${numbers.join(", ")}: ${doubt}`),
    ...(structures.untold > 0 ? [`  and ${structures.untold} smaller ones`] : []),
    ...under("Indication only", judged("indication")),
    ...under("Within the uncertainty", judged("within")),
    ...under("Not read", numbers.filter((number) => "absent" in number).map(line)),
    "",
  ].join("\n");
}

/** Fewer places say it themselves. */
const SEVERAL = 3;

/** What else may have changed in the place of the print, where several places say it alike, with their numbers. */
function sharedDoubts(places: ChangeReport["structures"]["places"]): Map<string, number[]> {
  const said = new Map<string, number[]>();
  for (const [index, { doubt }] of places.entries()) if (doubt) said.set(doubt, [...(said.get(doubt) ?? []), index + 1]);
  return new Map([...said].filter(([, numbers]) => numbers.length >= SEVERAL));
}
