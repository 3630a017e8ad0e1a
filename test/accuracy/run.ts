import { MEASURE_NAMES, MEASURES, type MeasureName } from "#domain/measure/catalogue.ts";
import { median } from "#domain/measure/robust.ts";
import { climb, type Ladder, type Rung, readValue } from "./ladder.ts";
import { LADDERS } from "./ladders.ts";
import { rankCorrelation } from "./statistics.ts";

// Prints how every measure follows a defect of known strength, and which measures another defect disturbs.
// Run: npm run accuracy [-- part of a defect's name]. The seeds here are used for nothing else.

const SEEDS = [9101, 9102, 9103];

const asked = process.argv[2] ?? "";
const climbed = LADDERS.filter(({ defect }) => defect.includes(asked)).map((ladder) => ({ ladder, rungs: climb(ladder, SEEDS) }));

console.log("| defect | measure | levels | median read at each level | worst error | rank correlation | absent |");
console.log("| --- | --- | --- | --- | --- | --- | --- |");
for (const { ladder, rungs } of climbed) for (const read of ladder.reads) console.log(followed(ladder, rungs, read));

console.log("\nReadings that a defect moves which is not theirs (median at the strongest level against none):\n");
console.log("| defect | measure | without | with |");
console.log("| --- | --- | --- | --- |");
for (const { ladder, rungs } of climbed) for (const line of disturbed(ladder, rungs)) console.log(line);

function followed({ defect, levels, levelUnit }: Ladder, rungs: readonly Rung[], { measure, truth }: Ladder["reads"][number]): string {
  const pairs = rungs.flatMap(({ level, measured }) => {
    const value = readValue(measured, measure);
    return Number.isNaN(value) ? [] : [[level, value] as const];
  });
  const errors = pairs.map(([level, value]) => Math.abs(value - truth(level))).filter((error) => !Number.isNaN(error));
  const medians = levels.map((level) => shown(measure, middle(pairs.filter(([at]) => at === level).map(([, value]) => value))));
  const cells = [
    defect,
    measure,
    `${levels.join(", ")} ${levelUnit}`,
    medians.join(", "),
    errors.length > 0 ? shown(measure, Math.max(...errors)) : "no figure",
    rankCorrelation(pairs).toFixed(2),
    `${rungs.length - pairs.length} of ${rungs.length}`,
  ];
  return `| ${cells.join(" | ")} |`;
}

/** A median moved by more than the scatter between seeds and a twentieth of itself. */
function disturbed({ defect, reads, levels }: Ladder, rungs: readonly Rung[]): string[] {
  const [none, strongest] = [levels[0], levels.at(-1)];
  return MEASURE_NAMES.filter((name) => !reads.some(({ measure }) => measure === name)).flatMap((name) => {
    const at = (level: number | undefined) => rungs.filter((rung) => rung.level === level).map(({ measured }) => readValue(measured, name));
    const [before, after] = [at(none), at(strongest)];
    const change = Math.abs(middle(after) - middle(before));
    const scatter = Math.max(...before) - Math.min(...before);
    const isSame = change <= Math.max(scatter, Math.abs(middle(before)) / 20, 10 ** -MEASURES[name].decimals);
    const isAbsent = Number.isNaN(middle(before)) && Number.isNaN(middle(after));
    return isSame || isAbsent ? [] : [`| ${defect} | ${name} | ${shown(name, middle(before))} | ${shown(name, middle(after))} |`];
  });
}

function middle(values: readonly number[]): number {
  const known = values.filter((value) => !Number.isNaN(value));
  return known.length > 0 ? median(Float32Array.from(known)) : Number.NaN;
}

function shown(measure: MeasureName, value: number): string {
  return Number.isNaN(value) ? "absent" : value.toFixed(MEASURES[measure].decimals);
}
