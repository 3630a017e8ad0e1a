import { SHINE_KINDS } from "#domain/measure/light/shine-kind.ts";
import type { MirroredTold } from "../ladders/mirrored-kinds.ts";
import { table } from "../results-file.ts";

/** In the order of the columns; those that nothing was taken for are left out. */
const ANSWERS = [...SHINE_KINDS.flatMap((kind) => [`${kind}, likely`, `${kind}, possible`]), "not told", "no shape seen", "glare absent"];

/** What each thing was taken for, counted over the seeds. */
export function mirroredTable(drawn: readonly MirroredTold[]): string {
  const answers = ANSWERS.filter((answer) => drawn.some(({ told }) => told === answer));
  const rows = [...new Map(drawn.map(({ thing, peak }) => [`${thing} ${peak}`, { thing, peak }])).values()].map(({ thing, peak }) => {
    const here = drawn.filter((each) => each.thing === thing && each.peak === peak);
    return [thing, peak, ...answers.map((answer) => here.filter(({ told }) => told === answer).length || "")];
  });
  return table(["mirrored", "light added, 1 = white", ...answers], rows);
}
