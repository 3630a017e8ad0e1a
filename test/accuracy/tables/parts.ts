import type { MeasureName } from "#domain/measure/catalogue.ts";
import type { Ladder } from "../ladder.ts";
import { DEMO_FIGURES } from "../ladders/demo.ts";
import { TOGETHER_LADDERS, type TogetherLadder } from "../ladders/together.ts";
import { LADDERS } from "../ladders.ts";
import { answersOf, type Task } from "../task.ts";
import { copyTasks, demoTasks, detailTasks, ladderTasks, mirroredTasks, togetherTasks } from "../tasks.ts";
import { demoTables } from "./demo.ts";
import { type BeforeAfter, type Disturbed, disturbedBy } from "./disturbed.ts";
import type { Followed } from "./followed.ts";
import { mirroredTable } from "./mirrored.ts";
import { ladderFollowed, ladderTable } from "./one-capture.ts";
import { copiesTable, detailFollowed, detailTable, togetherFollowed, togetherTable } from "./together.ts";

type Answers = ReadonlyMap<string, unknown>;

/** A ladder of any kind with what is made of it. */
export type Part = {
  readonly kind: "one capture" | "together" | "demo collection";
  readonly defect: string;
  readonly reads: readonly MeasureName[];
  readonly tasks: readonly Task[];
  /** a sentence above its table, where that needs one */
  readonly about?: string;
  readonly table: (answers: Answers) => string;
  readonly followed: (answers: Answers) => readonly Followed[];
  /** what it did to readings that are not its own, from one strength to another; absent where its levels are no strengths of one defect */
  readonly disturbed?: (answers: Answers) => Disturbed & { readonly fromTo: string };
};

export const allParts = (seeds: readonly number[]): Part[] => [
  ...LADDERS.map((ladder) => ofOne(ladder, seeds)),
  ...TOGETHER_LADDERS.map((ladder) => ofSeveral(ladder, seeds)),
  ofDetail(seeds),
  ofCopies(seeds),
  ofMirrored("one capture", seeds),
  ofMirrored("together", seeds),
  ofDemo(),
];

/** Those that read one of the measures named, or have one of the names in their defect. Throws where a name fits none. */
export function partsNamed(parts: readonly Part[], names: readonly string[]): readonly Part[] {
  const isNamed = ({ kind, defect, reads }: Part, name: string) =>
    defect.includes(name) || (kind !== "demo collection" && reads.some((measure) => measure === name));
  for (const name of names) if (!parts.some((part) => isNamed(part, name))) throw new Error(`no ladder reads or is called "${name}"`);
  return names.length === 0 ? parts : parts.filter((part) => names.some((name) => isNamed(part, name)));
}

function ofOne(ladder: Ladder, seeds: readonly number[]): Part {
  const tasks = ladderTasks(ladder, seeds);
  const reads = ladder.reads.map(({ measure }) => measure);
  return {
    kind: "one capture",
    defect: ladder.defect,
    reads,
    tasks,
    table: (answers) => ladderTable(ladder, answersOf(tasks, answers)),
    followed: (answers) => ladderFollowed(ladder, answersOf(tasks, answers)),
    disturbed: (answers) => ({
      fromTo: fromTo(ladder),
      ...disturbedBy(
        reads,
        bySeed(ladder, answersOf(tasks, answers), ({ told }) => told),
      ),
    }),
  };
}

function ofSeveral(ladder: TogetherLadder, seeds: readonly number[]): Part {
  const tasks = togetherTasks(ladder, seeds);
  return {
    kind: "together",
    defect: ladder.defect,
    reads: [ladder.measure],
    tasks,
    table: (answers) => togetherTable(ladder, answersOf(tasks, answers)),
    followed: (answers) => togetherFollowed(ladder, answersOf(tasks, answers)),
    disturbed: (answers) => ({
      fromTo: fromTo(ladder),
      ...disturbedBy(
        [ladder.measure],
        bySeed(ladder, answersOf(tasks, answers), ({ ofThree }) => ofThree[0] ?? {}),
      ),
    }),
  };
}

function ofDetail(seeds: readonly number[]): Part {
  const tasks = detailTasks(seeds);
  return {
    kind: "together",
    defect: "one soft capture among sharp ones",
    reads: ["detailCyPerMm"],
    tasks,
    about: "Truth: where detail and noise are equally strong in the drawing. The others have 0.05 mm of blur.",
    table: (answers) => detailTable(answersOf(tasks, answers).flat()),
    followed: (answers) => detailFollowed(answersOf(tasks, answers).flat()),
  };
}

function ofCopies(seeds: readonly number[]): Part {
  const tasks = copyTasks(seeds);
  return {
    kind: "together",
    defect: "copies of one exposure",
    reads: ["savedAgainCount"],
    tasks,
    about:
      "Read: `savedAgainCount` of a capture beside its copy and another exposure of the print, which lies in the same place of the frame and has noise of its own.",
    table: (answers) => copiesTable(answersOf(tasks, answers)),
    followed: () => [],
  };
}

/** What a reflection is of has no figure: told is how often it was taken for what. */
function ofMirrored(kind: "one capture" | "together", seeds: readonly number[]): Part {
  const tasks = mirroredTasks(kind, seeds);
  return {
    kind,
    defect: "what is mirrored",
    reads: ["glareAreaPercent"],
    tasks,
    about: `What the largest reflection is taken for, by its shape: a drawing of each thing and strength for each seed. The windows and lamps of the demo collection are drawn by another program. "no shape seen": glare is told, but none that shows its shape, or none at all.`,
    table: (answers) => mirroredTable(answersOf(tasks, answers)),
    followed: () => [],
  };
}

function ofDemo(): Part {
  const tasks = demoTasks();
  return {
    kind: "demo collection",
    defect: "captures of the demo collection",
    reads: DEMO_FIGURES.map(({ measure }) => measure),
    tasks,
    table: (answers) => demoTables(answersOf(tasks, answers)),
    followed: () => [],
  };
}

const fromTo = ({ levels, levelUnit }: { readonly levels: readonly number[]; readonly levelUnit: string }) =>
  `${levels[0]} → ${levels.at(-1)} ${levelUnit}`;

/** Each seed's content at the first level and at the last. */
function bySeed<Rung extends { readonly level: number; readonly seed: number }>(
  { levels }: { readonly levels: readonly number[] },
  rungs: readonly Rung[],
  toldOf: (rung: Rung) => BeforeAfter["before"],
): BeforeAfter[] {
  const at = (level: number | undefined) => rungs.filter((rung) => rung.level === level);
  return at(levels[0]).flatMap((before) => {
    const after = at(levels.at(-1)).find(({ seed }) => seed === before.seed);
    return after ? [{ before: toldOf(before), after: toldOf(after) }] : [];
  });
}
