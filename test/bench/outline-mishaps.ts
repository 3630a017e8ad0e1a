/**
 * Where the sheet is found when something is amiss beside it: right, doubted, absent, or, which is worst, wrong with all its sides
 * seen. Where the size is not in the record (odd seeds), a mount or a sleeve may well be taken for the sheet, with the print as its picture.
 *
 *   npx tsx test/bench/outline-mishaps.ts [captures of each, default 8] [first seed, default 300]
 */
import { MISHAPS } from "../fixtures/mishaps.ts";
import { TOLD, toldOf } from "../fixtures/told-of-mishap.ts";

const count = Number(process.argv[2] ?? 8);
const first = Number(process.argv[3] ?? 300);
const table: Record<string, Record<string, number>> = {};
for (const [what, draw] of Object.entries(MISHAPS)) {
  const row: Record<string, number> = Object.fromEntries(TOLD.map((word) => [word, 0]));
  for (let seed = first; seed < first + count; seed++) {
    const told = toldOf(draw(seed));
    row[told] = (row[told] ?? 0) + 1;
    if (told === "wrong, all sides seen") console.log(`${what}, seed ${seed}: ${told}`);
  }
  table[what] = row;
}
console.table(table);
