import { MEASURE_NAMES, MEASURES, type MeasureName } from "#domain/measure/catalogue.ts";
import { median } from "#domain/measure/robust.ts";
import { climb, type Ladder, type Rung, readValue } from "./ladder.ts";
import { LADDERS } from "./ladders.ts";
import { asked, head, row, today, writeParts, writeRows, writeSection } from "./results-file.ts";
import { rankCorrelation } from "./statistics.ts";

// How every measure follows a defect of known strength, and which measures another defect disturbs, as Markdown.
// Run: npm run accuracy [-- --only NAME…] [--write test/accuracy/RESULTS.md]. A name is that of a measure that a ladder reads, or part of
// its defect's; with names only the tables of those ladders are written anew. The seeds here are used for nothing else.

const SEEDS = [9101, 9102, 9103];
const FOLLOWED = "One capture";
const DISTURBED = "What another defect disturbs";

const { names, file } = asked(process.argv.slice(2));
for (const name of names) if (!LADDERS.some((ladder) => isNamed(ladder, name))) throw new Error(`no ladder reads or is called "${name}"`);
const ladders = LADDERS.filter((ladder) => names.length === 0 || names.some((name) => isNamed(ladder, name)));
const climbed = ladders.map((ladder, index) => {
  const started = Date.now();
  const rungs = climb(ladder, SEEDS);
  const seconds = Math.round((Date.now() - started) / 1000);
  console.error(`${index + 1} of ${ladders.length}: ${ladder.defect}, ${rungs.length} captures, ${seconds} s`);
  return { ladder, rungs };
});

const tables = climbed.flatMap(({ ladder, rungs }) => ladder.reads.map((read) => followed(ladder, rungs, read)));
const rows = climbed.flatMap(({ ladder, rungs }) => disturbed(ladder, rungs));
const command = [
  "npm run accuracy",
  ...(names.length > 0 ? ["-- --only", ...names.map((name) => (/\s/.test(name) ? `"${name}"` : name))] : []),
];
const made = `Made on ${today()} by \`${command.join(" ")}\` with the seeds ${SEEDS.join(", ")}; each level is drawn once for each seed.`;
if (names.length === 0) {
  tell(
    FOLLOWED,
    [
      `${made} Since seeds of one level are tied, no rank correlation reaches more than about 0.98.`,
      ...tables.map(({ heading, body }) => `### ${heading}\n\n${body}`),
    ].join("\n\n"),
  );
  tell(
    DISTURBED,
    `${made} Readings moved by a defect that is not theirs: the median at the strongest level against that at the first, where it moved by more than the
scatter between seeds and a twentieth of itself. Not all are faults: a capture lit unevenly has another tonal range.\n\n${[head(["defect", "strongest", "measure", "without", "with"]), ...rows].join("\n")}`,
  );
} else {
  const parts = tables.map(({ heading, body }) => ({ heading, body: `${made}\n\n${body}` }));
  console.log([...parts.map(({ heading, body }) => `### ${heading}\n\n${body}\n`), ...rows].join("\n"));
  if (file) {
    writeParts(file, FOLLOWED, parts);
    writeRows(
      file,
      DISTURBED,
      ladders.map(({ defect }) => defect),
      rows,
    );
  }
}

function isNamed({ defect, reads }: Ladder, name: string): boolean {
  return defect.includes(name) || reads.some(({ measure }) => measure === name);
}

function tell(heading: string, body: string): void {
  console.log(`## ${heading}\n\n${body}\n`);
  if (file) writeSection(file, heading, body);
}

function followed({ defect, levels, levelUnit }: Ladder, rungs: readonly Rung[], { measure, truth }: Ladder["reads"][number]) {
  const read = rungs.map(({ level, seed, measured }) => ({ level, value: readValue(measured, measure), truth: truth(level, seed) }));
  const pairs = read.flatMap(({ level, value }) => (Number.isNaN(value) ? [] : [[level, value] as const]));
  const lines = levels.map((level) => {
    const here = read.filter((each) => each.level === level);
    const values = here.map(({ value }) => value).filter((value) => !Number.isNaN(value));
    const errors = here.map((each) => Math.abs(each.value - each.truth)).filter((error) => !Number.isNaN(error));
    const truths = here.map((each) => shown(measure, each.truth, "no figure"));
    return row([
      level,
      new Set(truths).size === 1 ? (truths[0] as string) : `${truths.join(", ")} by seed`,
      shown(measure, middle(values)),
      errors.length > 0 ? shown(measure, Math.max(...errors)) : "",
      `${here.length - values.length} of ${here.length}`,
    ]);
  });
  const correlation = rankCorrelation(pairs);
  const body = [
    `Rank correlation of level and reading: ${Number.isNaN(correlation) ? "none, as one of them never changes" : correlation.toFixed(2)}.`,
    [head([`level, ${levelUnit}`, "truth", "median reading", "worst error", "absent"]), ...lines].join("\n"),
  ].join("\n\n");
  return { heading: `${defect}: \`${measure}\``, body };
}

/** A median moved by more than the scatter between seeds and a twentieth of itself. */
function disturbed({ defect, reads, levels, levelUnit }: Ladder, rungs: readonly Rung[]): string[] {
  const [none, strongest] = [levels[0], levels.at(-1)];
  return MEASURE_NAMES.filter((name) => !reads.some(({ measure }) => measure === name)).flatMap((name) => {
    const at = (level: number | undefined) => rungs.filter((rung) => rung.level === level).map(({ measured }) => readValue(measured, name));
    const [before, after] = [at(none), at(strongest)];
    const change = Math.abs(middle(after) - middle(before));
    const known = before.filter((value) => !Number.isNaN(value));
    const scatter = Math.max(...known) - Math.min(...known);
    const isSame = change <= Math.max(scatter, Math.abs(middle(before)) / 20, 10 ** -MEASURES[name].decimals);
    const isAbsent = known.length === 0 && Number.isNaN(middle(after));
    return isSame || isAbsent
      ? []
      : [row([defect, `${strongest} ${levelUnit}`, `\`${name}\``, shown(name, middle(before)), shown(name, middle(after))])];
  });
}

function middle(values: readonly number[]): number {
  const known = values.filter((value) => !Number.isNaN(value));
  return known.length > 0 ? median(Float32Array.from(known)) : Number.NaN;
}

function shown(measure: MeasureName, value: number, unknown = "absent"): string {
  return Number.isNaN(value) ? unknown : value.toFixed(MEASURES[measure].decimals);
}
