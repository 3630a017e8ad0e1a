import type { Ladder } from "../ladder.ts";
import { table } from "../results-file.ts";
import { middleOf } from "../statistics.ts";
import type { OneRung } from "../tasks.ts";
import { errorOf, type Followed, followedBy, type Pair } from "./followed.ts";
import { each, name, shown } from "./shown.ts";

/** A ladder's table: a column for each level, and for each measure its truth, what was read, the worst error and how often it was absent. */
export function ladderTable({ levels, levelUnit, reads }: Ladder, rungs: readonly OneRung[]): string {
  const rows = reads.flatMap(({ measure }, index) => {
    const at = levels.map((level) => pairsOf(rungs, index, measure).filter((pair) => pair.level === level));
    const differ = at.some((pairs) => new Set(pairs.map(({ truth }) => truth)).size > 1);
    const absent = at.map((pairs) => pairs.filter(({ told }) => !told).length);
    return [
      [`${name(measure)}: truth`, ...at.map((pairs) => each(pairs.map(({ truth }) => shown(measure, truth, "no figure"))))],
      differ
        ? ["read, by seed", ...at.map((pairs) => each(pairs.map(({ told }) => shown(measure, told?.value))))]
        : ["read, the middle one", ...at.map((pairs) => shown(measure, middleOf(pairs.map(({ told }) => told?.value))))],
      ["worst error", ...at.map((pairs) => shown(measure, worstOf(pairs), ""))],
      ...(absent.some((count) => count > 0) ? [["absent", ...absent.map((count, column) => `${count} of ${at[column]?.length}`)]] : []),
    ];
  });
  return table([levelUnit, ...levels], rows);
}

/** How each measure that a ladder reads followed it. */
export const ladderFollowed = ({ defect, reads }: Ladder, rungs: readonly OneRung[]): Followed[] =>
  reads.map(({ measure }, index) => followedBy(measure, defect, pairsOf(rungs, index, measure)));

const pairsOf = (rungs: readonly OneRung[], index: number, measure: Ladder["reads"][number]["measure"]): Pair[] =>
  rungs.map(({ level, truths, told }) => ({ level, truth: truths[index] ?? null, told: told[measure] }));

function worstOf(pairs: readonly Pair[]): number | null {
  const errors = pairs.map(errorOf).filter((error) => error !== null);
  return errors.length > 0 ? Math.max(...errors) : null;
}
