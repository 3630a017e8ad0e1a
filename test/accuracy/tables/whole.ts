import { table } from "../results-file.ts";
import type { Part } from "./parts.ts";
import { summaryTable } from "./summary.ts";

const ABOUT_SUMMARY = `Rank correlation (Spearman) of reading and truth, or of reading and level where no figure is true; – where one of them never changes. Errors are
distances from the truth, in the measure's unit; of a reading that is a bound they say how far it falls short. "Within twice its ±": of readings that tell an
uncertainty and no bound, how many lie as near to the truth as twice that; of good ones about 95 in 100 do.`;

const ABOUT_ONE = "A column for each strength. Worst errors are those of all seeds. Nothing is absent where no line says so.";

const ABOUT_TOGETHER =
  "Read of the first capture, which alone has the defect, beside one other and beside two. The last column says what the others, which have none, are told of it.";

const ABOUT_DEMO = `Captures that another program draws (demo-collection/), of rendered scenes on sheets with grain, writing and age, by models of four kinds of device, each measured
alone with the sheet's size as a ruler would say it. Glare is counted there wherever more than a hundredth of white is added, however faint: less than any eye would see.`;

const ABOUT_DISTURBED = `Each content is held against itself, with the defect as weak and as strong as it is drawn. A reading counts as moved where more than half of the contents move it
the same way, by more than a twentieth of itself and a step of its last decimal; the figures are the middle ones. Not all are faults: a capture lit unevenly has another
tonal range. Measures that the ladder itself reads are left out.`;

/** The tables of ladders, as Markdown: all at a glance, each by itself, and what they do to other measures. */
export function tablesOf(parts: readonly Part[], answers: ReadonlyMap<string, unknown>): string {
  const of = (kind: Part["kind"]) => parts.filter((part) => part.kind === kind);
  return [
    "## Every measure at a glance",
    ABOUT_SUMMARY,
    summaryTable(parts.flatMap(({ followed }) => followed(answers))),
    ...section("One capture, ladder by ladder", ABOUT_ONE, of("one capture"), answers),
    ...section("Captures together, ladder by ladder", ABOUT_TOGETHER, of("together"), answers),
    ...section("Captures of the demo collection", ABOUT_DEMO, of("demo collection"), answers),
    "## What another defect disturbs",
    ABOUT_DISTURBED,
    ...disturbed("One capture", of("one capture"), answers),
    ...disturbed("The first of three captures together", of("together"), answers),
  ].join("\n\n");
}

function section(heading: string, about: string, parts: readonly Part[], answers: ReadonlyMap<string, unknown>): string[] {
  if (parts.length === 0) return [];
  return [
    `## ${heading}`,
    about,
    ...parts.flatMap((part) => [
      ...(part.kind === "demo collection" ? [] : [`### ${part.defect}`]),
      ...(part.about ? [part.about] : []),
      part.table(answers),
    ]),
  ];
}

function disturbed(heading: string, parts: readonly Part[], answers: ReadonlyMap<string, unknown>): string[] {
  const rows = parts.flatMap(({ defect, disturbed }) => (disturbed ? [{ defect, ...disturbed(answers) }] : []));
  if (rows.length === 0) return [];
  const [looked, count] = [rows.reduce((sum, each) => sum + each.looked, 0), rows.reduce((sum, each) => sum + each.count, 0)];
  return [
    `### ${heading}`,
    `Of ${looked} readings of a measure beside a defect that is not its own, ${looked - count} stayed as they were.`,
    table(
      ["defect", "from → to", "moved", "no longer read", "read only with it"],
      rows.map(({ defect, fromTo, moved, noLongerRead, newlyRead }) => [
        defect,
        fromTo,
        moved.join(", "),
        noLongerRead.join(", "),
        newlyRead.join(", "),
      ]),
    ),
  ];
}
