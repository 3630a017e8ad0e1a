import { comparedSheets } from "../fixtures/compared-sheets.ts";
import { climb, type Ladder } from "./ladder.ts";
import { COPYINGS, type Copied, copyAt } from "./ladders/copies.ts";
import { DEMO_CAPTURES_OF_ONE, type DemoRead, readDemoCapture } from "./ladders/demo.ts";
import { type DetailRung, detailAt, LEVELS_MM } from "./ladders/detail.ts";
import { MIRRORED, type MirroredTold, mirroredAt, PEAKS } from "./ladders/mirrored-kinds.ts";
import { TOGETHER_LADDERS, type TogetherLadder } from "./ladders/together.ts";
import { LADDERS } from "./ladders.ts";
import { nameOf, type Task } from "./task.ts";
import { type ToldByName, toldOf } from "./told.ts";

/** One capture drawn at a level: everything read of it, and the truth of what its ladder reads, in that order; null where no figure is true. */
export type OneRung = {
  readonly level: number;
  readonly seed: number;
  readonly told: ToldByName;
  readonly truths: readonly (number | null)[];
};

/** Captures drawn at a level, of which the first has the defect: everything told of each, of two of them and of three. */
export type TogetherRung = {
  readonly level: number;
  readonly seed: number;
  readonly truth: number | null;
  readonly ofTwo: readonly ToldByName[];
  readonly ofThree: readonly ToldByName[];
};

export const ladderTasks = (ladder: Ladder, seeds: readonly number[]): Task<OneRung>[] =>
  ladder.levels.flatMap((level) =>
    seeds.map((seed) => ({
      name: nameOf("one capture", ladder.defect, level, seed),
      work: () => {
        const [rung] = climb(ladder, [seed], [level]);
        const truths = ladder.reads.map(({ truth }) => orNull(truth(level, seed)));
        return { level, seed, told: toldOf(rung?.measured.readings ?? []), truths };
      },
    })),
  );

export const togetherTasks = (ladder: TogetherLadder, seeds: readonly number[]): Task<TogetherRung>[] =>
  ladder.levels.flatMap((level) =>
    seeds.map((seed) => ({
      name: nameOf("together", ladder.defect, level, seed),
      work: async () => {
        const sheets = ladder.draw(level, seed, 3);
        const [ofTwo, ofThree] = [await comparedSheets(sheets.slice(0, 2)), await comparedSheets(sheets)];
        return { level, seed, truth: orNull(ladder.truth(level, seed)), ofTwo: ofTwo.map(toldOf), ofThree: ofThree.map(toldOf) };
      },
    })),
  );

export const detailTasks = (seeds: readonly number[]): Task<readonly DetailRung[]>[] =>
  seeds.flatMap((seed) => LEVELS_MM.map((blurMm) => ({ name: nameOf("detail", blurMm, seed), work: () => detailAt(blurMm, seed) })));

export const copyTasks = (seeds: readonly number[]): Task<Copied>[] =>
  seeds.flatMap((seed) => COPYINGS.map((copying) => ({ name: nameOf("copies", copying.what, seed), work: () => copyAt(copying, seed) })));

export const mirroredTasks = (how: keyof typeof PEAKS, seeds: readonly number[]): Task<MirroredTold>[] =>
  MIRRORED.flatMap((mirrored) =>
    PEAKS[how].flatMap((peak) =>
      seeds.map((seed) => ({
        name: nameOf("mirrored", how, mirrored.thing, peak, seed),
        work: () => mirroredAt(how, mirrored, peak, seed),
      })),
    ),
  );

/** Captures of the demo collection, which no seed changes. */
export const demoTasks = (): Task<DemoRead>[] =>
  DEMO_CAPTURES_OF_ONE.map((capture) => ({ name: nameOf("demo collection", capture.file), work: () => readDemoCapture(capture) }));

/** Everything that a whole run does, the longest pieces first, so that no core waits for one of them at the end. */
export const allTasks = (seeds: readonly number[]): Task[] => [
  ...demoTasks(),
  ...detailTasks(seeds),
  ...copyTasks(seeds),
  ...TOGETHER_LADDERS.flatMap((ladder) => togetherTasks(ladder, seeds)),
  ...LADDERS.flatMap((ladder) => ladderTasks(ladder, seeds)),
  ...mirroredTasks("together", seeds),
  ...mirroredTasks("one capture", seeds),
];

const orNull = (value: number) => (Number.isNaN(value) ? null : value);
