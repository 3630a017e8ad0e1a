import { MEASURES, type MeasureName } from "#domain/measure/catalogue.ts";
import { isPresent, type Reading } from "#domain/measure/reading.ts";
import { median } from "#domain/measure/robust.ts";
import { comparedSheets } from "../fixtures/compared-sheets.ts";
import { TOGETHER_LADDERS } from "./ladders/together.ts";
import { asked, head, row, today, writeSection } from "./results-file.ts";

// How measures by comparison follow a defect of known strength in the first of two and of three captures, and what they say of the others, as Markdown.
// Run: npx tsx test/accuracy/together.ts [part of a defect's name] [--write test/accuracy/RESULTS.md], a section for each defect.
// The seeds here are used for nothing else.

const SEEDS = [9101, 9102, 9103];

const { part, file } = asked(process.argv.slice(2));
for (const { defect, measure, truth, levels, levelUnit, draw } of TOGETHER_LADDERS.filter((ladder) => ladder.defect.includes(part))) {
  const started = Date.now();
  const lines = [head(["captures", `level, ${levelUnit}`, "truth", "at each seed", "worst error", "relied on", "most in the others"])];
  for (const level of levels) {
    const sheets = SEEDS.map((seed) => draw(level, seed, 3));
    for (const count of [2, 3]) {
      const sets = [];
      for (const each of sheets) sets.push(await comparedSheets(each.slice(0, count)));
      const read = sets.map(([first]) => readOf(first, measure));
      const errors = read.map((value) => Math.abs(value - truth(level))).filter((error) => !Number.isNaN(error));
      const others = sets
        .flatMap(([, ...rest]) => rest.map((readings) => readOf(readings, measure)))
        .filter((value) => !Number.isNaN(value));
      lines.push(
        row([
          count,
          level,
          Number.isNaN(truth(level)) ? "no figure" : shown(measure, truth(level)),
          read.map((value) => shown(measure, value)).join(", "),
          errors.length > 0 ? shown(measure, Math.max(...errors)) : "",
          reliedOn(sets.map(([first]) => first)),
          others.length > 0 ? `${shown(measure, Math.max(...others))} (middle ${shown(measure, median(others))})` : "absent",
        ]),
      );
    }
  }
  const made = `Made on ${today()} by \`npx tsx test/accuracy/together.ts\` with the seeds ${SEEDS.join(", ")}; read: \`${measure}\` of the first capture, which alone has the defect.`;
  const body = `${made}\n\n${lines.join("\n")}`;
  console.error(`${defect}: ${Math.round((Date.now() - started) / 1000)} s`);
  console.log(`## Captures together: ${defect}\n\n${body}\n`);
  if (file) writeSection(file, `Captures together: ${defect}`, body);

  function reliedOn(readings: readonly (readonly Reading[] | undefined)[]): string {
    const said = readings
      .map((each) => each?.find(({ name }) => name === measure))
      .map((one) => (isPresent(one) ? one.reliability : "absent"));
    return [...new Set(said)].join(", ");
  }
}

function readOf(readings: readonly Reading[] | undefined, measure: MeasureName): number {
  const reading = readings?.find(({ name }) => name === measure);
  return isPresent(reading) ? reading.value : Number.NaN;
}

function shown(measure: MeasureName, value: number): string {
  return Number.isNaN(value) ? "absent" : value.toFixed(MEASURES[measure].decimals);
}
