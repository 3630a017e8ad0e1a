import { doubleSave } from "#domain/measure/file/double-save.ts";
import { fileFacts } from "#domain/measure/file/file-facts.ts";
import { processingSigns } from "#domain/measure/file/processing-signs.ts";
import { barrel } from "#domain/measure/geometry/barrel.ts";
import { keystone } from "#domain/measure/geometry/keystone.ts";
import { margin } from "#domain/measure/geometry/margin.ts";
import { sampling } from "#domain/measure/geometry/sampling.ts";
import { sidesSeen } from "#domain/measure/geometry/sides-seen.ts";
import { skew } from "#domain/measure/geometry/skew.ts";
import { makeGrid } from "#domain/measure/laying/print-grid.ts";
import { borderCast } from "#domain/measure/light/border-cast.ts";
import { borderEvenness } from "#domain/measure/light/border-evenness.ts";
import { borderGlare } from "#domain/measure/light/border-glare.ts";
import { borderShine } from "#domain/measure/light/border-shine.ts";
import { glareAlone } from "#domain/measure/light/glare-alone.ts";
import { haze } from "#domain/measure/light/haze.ts";
import { largestOutline, measureCapture } from "#domain/measure/measure-capture.ts";
import { median } from "#domain/measure/numbers/robust.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import type { Reading } from "#domain/measure/reading.ts";
import { detailAlone } from "#domain/measure/sharpness/corroborated-detail.ts";
import { focus } from "#domain/measure/sharpness/focus.ts";
import { misregistration } from "#domain/measure/sharpness/misregistration.ts";
import { printEdges } from "#domain/measure/sharpness/print-edges.ts";
import { resolution } from "#domain/measure/sharpness/resolution.ts";
import { dust } from "#domain/measure/surface/dust.ts";
import { moire } from "#domain/measure/surface/moire.ts";
import { rings } from "#domain/measure/surface/rings.ts";
import { streaks } from "#domain/measure/surface/streaks.ts";
import { clipping } from "#domain/measure/tone/clipping.ts";
import { missingLevels } from "#domain/measure/tone/missing-levels.ts";
import { noise } from "#domain/measure/tone/noise.ts";
import { tonalRange } from "#domain/measure/tone/tonal-range.ts";
import { readPlainFile } from "#server/plain-files/read-plain-file.ts";
import { INSTANT } from "../fixtures/pictures.ts";

// Prints what each step of measuring one capture costs, in ms of processor time (not of the clock, so that other work on the machine
// hardly counts): the first time in a process, when nothing is compiled yet, and the median of the later times.
// Run: npx tsx test/bench/measures-cost.ts FILE… (those that `npm run bench:large-files` draws, or captures of the demo collection)

const RUNS = 9;
/** The first runs after the very first are still being compiled for. */
const WARMING = 3;
const SAID = { formatId: null, sheetMm: { widthMm: INSTANT.widthMm, heightMm: INSTANT.heightMm }, method: null };

/** Those that need nothing but picture and outline. */
const OTHERS = [
  sidesSeen,
  skew,
  keystone,
  margin,
  barrel,
  sampling,
  detailAlone,
  clipping,
  tonalRange,
  missingLevels,
  noise,
  streaks,
  moire,
  misregistration,
  rings,
  dust,
  fileFacts,
  doubleSave,
  processingSigns,
];

const files = process.argv.slice(2);
if (files.length === 0) throw new Error("Say which files: npx tsx test/bench/measures-cost.ts FILE…");
for (const file of files) {
  const runs: Map<string, number>[] = [];
  for (let run = 0; run < RUNS; run++) runs.push(await costsOf(file));
  const warm = runs.slice(WARMING);
  console.log(`${file}\n  ${"ms of processor time".padEnd(24)} first    later`);
  for (const [step, first] of runs[0] as Map<string, number>) {
    const later = median(warm.map((run) => run.get(step) as number));
    console.log(`  ${step.padEnd(24)} ${first.toFixed(1).padStart(6)} ${later.toFixed(1).padStart(7)}`);
  }
}

/** Of each step once, in the order of measuring. */
async function costsOf(file: string): Promise<Map<string, number>> {
  const costs = new Map<string, number>();
  const timed = async <T>(step: string, work: () => T | Promise<T>): Promise<T> => {
    const before = process.cpuUsage();
    const answer = await work();
    const { user, system } = process.cpuUsage(before);
    costs.set(step, (user + system) / 1000);
    return answer;
  };
  const read = await timed("decode and read", () => readPlainFile(file, SAID));
  if (!read.ok) throw new Error(`${file}: ${read.refusals[0]?.happened}`);
  const { picture, context } = read.value;
  const outline = largestOutline(await timed("findOutlines", () => findOutlines(picture, context)));
  const grid = outline && (await timed("makeGrid", () => makeGrid(picture, outline, context)));
  const edges = outline ? await timed("printEdges", () => printEdges(picture, outline, context)) : [];
  const shine = await timed("borderShine", () => borderShine(picture, outline, context));
  const readings: Reading[] = [];
  for (const measure of [resolution, focus]) readings.push(...(await timed(measure.name, () => measure(picture, outline, context, edges))));
  for (const measure of [borderGlare, glareAlone, haze, borderEvenness, borderCast])
    readings.push(...(await timed(measure.name, () => measure(picture, outline, context, shine, grid))));
  for (const measure of OTHERS) readings.push(...(await timed(measure.name, () => measure(picture, outline, context))));
  costs.set(
    "all",
    [...costs.values()].reduce((sum, cost) => sum + cost, 0),
  );
  const fresh = await readPlainFile(file, SAID);
  const whole = fresh.ok ? await timed("measureCapture", () => measureCapture(fresh.value.picture, context)) : { readings: [] };
  const missing = whole.readings.filter(({ name }) => !readings.some((each) => each.name === name));
  if (missing.length > 0) throw new Error(`not timed here: ${missing.map(({ name }) => name).join(", ")}`);
  return costs;
}
