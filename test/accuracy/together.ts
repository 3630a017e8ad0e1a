import { MEASURES, type MeasureName } from "#domain/measure/catalogue.ts";
import { isPresent, type Reading } from "#domain/measure/reading.ts";
import { median } from "#domain/measure/robust.ts";
import { comparedSheets } from "../fixtures/compared-sheets.ts";
import { captureFinePrint, drawFinePrint, type FineCapture } from "../fixtures/fine-captures.ts";
import { readingsOf } from "../fixtures/fine-sets.ts";
import { COPYINGS } from "./ladders/copies.ts";
import { climbDetail } from "./ladders/detail.ts";
import { TOGETHER_LADDERS } from "./ladders/together.ts";
import { asked, head, row, today, writeSection } from "./results-file.ts";

// How measures by comparison follow a defect of known strength in the first of two and of three captures, and what they say of the others, as Markdown.
// Run: npx tsx test/accuracy/together.ts [--only NAME…] [--write test/accuracy/RESULTS.md]; a name is part of a defect's, a section for each defect.
// The seeds here are used for nothing else.

const SEEDS = [9101, 9102, 9103];
const COPIES = "Captures together: copies of one exposure";
const SOFT = "Captures together: one soft capture among sharp ones";

const { names, file } = asked(process.argv.slice(2));
if (isAsked(COPIES)) tell(COPIES, await copiesTold());
if (isAsked(SOFT)) tell(SOFT, await detailTold());
for (const { defect, measure, truth, levels, levelUnit, draw } of TOGETHER_LADDERS.filter((ladder) => isAsked(ladder.defect))) {
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
  tell(`Captures together: ${defect}`, body);

  function reliedOn(readings: readonly (readonly Reading[] | undefined)[]): string {
    const said = readings
      .map((each) => each?.find(({ name }) => name === measure))
      .map((one) => (isPresent(one) ? one.reliability : "absent"));
    return [...new Set(said)].join(", ");
  }
}

/** Of each edit: whether the copy is told of its source, and what is said of another exposure with the same set-up. */
async function copiesTold(): Promise<string> {
  const lines = [
    head(["the copy was", "told as the same exposure", "only said to share noise", "another capture with the same set-up told as a copy"]),
  ];
  const [copies, bystanders] = [new Map<string, string[]>(), new Map<string, string[]>()];
  for (const seed of SEEDS) {
    const print = drawFinePrint(seed);
    const setUp: FineCapture = { ppi: 300, blurMm: 0.06, noiseCodes: 2 + (seed % 3), noiseSeed: seed, turnDeg: 1, cornersOffMm: 0.1 };
    const [source, bystander] = [captureFinePrint(print, setUp), captureFinePrint(print, { ...setUp, noiseSeed: seed + 500 })];
    for (const { what, copyOf } of COPYINGS) {
      const [ofSource, ofBystander] = (await readingsOf([source, bystander, await copyOf(source)])).map(bondOf);
      copies.set(what, [...(copies.get(what) ?? []), ofSource ?? "absent"]);
      bystanders.set(what, [...(bystanders.get(what) ?? []), ofBystander ?? "absent"]);
    }
    console.error(`copies of print ${seed}`);
  }
  const count = (said: readonly string[] | undefined, one: string) =>
    `${said?.filter((each) => each === one).length ?? 0} of ${SEEDS.length}`;
  for (const [what, said] of copies)
    lines.push(row([what, count(said, "same"), count(said, "shared"), count(bystanders.get(what), "same")]));
  const made = `Made on ${today()} by \`npx tsx test/accuracy/together.ts\` with the seeds ${SEEDS.join(", ")}; read: \`savedAgainCount\` of a capture beside its copy and beside another exposure of the print in the same place of the frame, with noise of its own.`;
  return `${made}\n\n${lines.join("\n")}`;
}

/** How far the detail of a capture goes that is ever softer, at each seed, against the truth there. */
async function detailTold(): Promise<string> {
  const rungs = await climbDetail(SEEDS);
  const lines = [head(["captures", "blur of the soft one, mm", "truth at each seed", "read at each seed", "worst error", "relied on"])];
  for (const captures of [2, 3]) {
    for (const blurMm of new Set(rungs.map((rung) => rung.blurMm))) {
      const here = rungs.filter((rung) => rung.captures === captures && rung.blurMm === blurMm);
      const errors = here.map(({ read, truth }) => Math.abs(read - truth)).filter(Number.isFinite);
      lines.push(
        row([
          captures,
          blurMm,
          here.map(({ truth }) => (Number.isFinite(truth) ? shown("detailCyPerMm", truth) : "beyond the sampling")).join(", "),
          here.map(({ read, isAtLeast }) => `${isAtLeast ? "at least " : ""}${shown("detailCyPerMm", read)}`).join(", "),
          errors.length > 0 ? shown("detailCyPerMm", Math.max(...errors)) : "",
          [...new Set(here.map(({ reliability }) => reliability))].join(", "),
        ]),
      );
    }
  }
  const made = `Made on ${today()} by \`npx tsx test/accuracy/together.ts --only "one soft capture"\` with the seeds ${SEEDS.join(", ")}; read: \`detailCyPerMm\` of a capture beside one and beside two of 0.05 mm of blur. Truth: where detail and noise are equally strong in the drawing.`;
  return `${made}\n\n${lines.join("\n")}`;
}

function bondOf(readings: readonly Reading[]): "same" | "shared" | "none" | "absent" {
  const reading = readings.find(({ name }) => name === "savedAgainCount");
  if (!isPresent(reading)) return "absent";
  if (reading.value > 0) return "same";
  return reading.detail?.sharesNoiseWith ? "shared" : "none";
}

function isAsked(defect: string): boolean {
  return names.length === 0 || names.some((name) => defect.includes(name));
}

function tell(heading: string, body: string): void {
  console.log(`## ${heading}\n\n${body}\n`);
  if (file) writeSection(file, heading, body);
}

function readOf(readings: readonly Reading[] | undefined, measure: MeasureName): number {
  const reading = readings?.find(({ name }) => name === measure);
  return isPresent(reading) ? reading.value : Number.NaN;
}

function shown(measure: MeasureName, value: number): string {
  return Number.isNaN(value) ? "absent" : value.toFixed(MEASURES[measure].decimals);
}
