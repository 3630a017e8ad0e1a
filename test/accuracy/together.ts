import { MEASURES } from "#domain/measure/catalogue.ts";
import { isPresent, type Reading } from "#domain/measure/reading.ts";
import { comparedSheets } from "../fixtures/compared-sheets.ts";
import { TOGETHER_LADDERS } from "./ladders/together.ts";

// Prints how measures by comparison follow a defect of known strength in the first of two and of three captures, and what they say of the others.
// Run: npx tsx test/accuracy/together.ts [part of a defect's name]. The seeds here are used for nothing else.

const SEEDS = [9101, 9102, 9103];
const asked = process.argv[2] ?? "";

console.log("| defect | captures | level | truth | read at each seed | in the others |");
console.log("| --- | --- | --- | --- | --- | --- |");
for (const { defect, measure, truth, levels, levelUnit, draw } of TOGETHER_LADDERS.filter((ladder) => ladder.defect.includes(asked))) {
  const shown = (readings: readonly Reading[] | undefined) => {
    const reading = readings?.find(({ name }) => name === measure);
    return isPresent(reading) ? `${reading.value.toFixed(MEASURES[measure].decimals)} (${reading.reliability})` : "absent";
  };
  for (const level of levels) {
    for (const count of [2, 3]) {
      const sets = [];
      for (const seed of SEEDS) sets.push(await comparedSheets(draw(level, seed, count)));
      const cells = [
        defect,
        String(count),
        `${level} ${levelUnit}`,
        truth(level).toFixed(MEASURES[measure].decimals),
        sets.map(([first]) => shown(first)).join(", "),
        sets.map(([, ...others]) => others.map(shown).join(" / ")).join(", "),
      ];
      console.log(`| ${cells.join(" | ")} |`);
    }
  }
}
