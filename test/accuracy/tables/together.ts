import type { MeasureName } from "#domain/measure/catalogue.ts";
import type { Bond, Copied } from "../ladders/copies.ts";
import type { DetailRung } from "../ladders/detail.ts";
import type { TogetherLadder } from "../ladders/together.ts";
import { table } from "../results-file.ts";
import { middleOf } from "../statistics.ts";
import type { TogetherRung } from "../tasks.ts";
import { errorOf, type Followed, followedBy, type Pair } from "./followed.ts";
import { name, shown } from "./shown.ts";

const COUNTS = [2, 3] as const;

/** What was told of two captures or of three, of which the first has the defect. */
const ofCount = (rung: TogetherRung, count: 2 | 3) => (count === 2 ? rung.ofTwo : rung.ofThree);

export function togetherTable({ measure, levels, levelUnit }: TogetherLadder, rungs: readonly TogetherRung[]): string {
  const rows = COUNTS.flatMap((count) =>
    levels.map((level) => {
      const here = rungs.filter((rung) => rung.level === level);
      const pairs = pairsOf(here, count, measure);
      const errors = pairs.map(errorOf).filter((error) => error !== null);
      const others = here.flatMap((rung) => ofCount(rung, count).slice(1)).flatMap(({ [measure]: told }) => (told ? [told.value] : []));
      return [
        count,
        level,
        [...new Set(here.map(({ truth }) => shown(measure, truth, "no figure")))].join(", "),
        pairs.map(({ told }) => shown(measure, told?.value)).join(", "),
        errors.length > 0 ? shown(measure, Math.max(...errors)) : "",
        [...new Set(pairs.map(({ told }) => told?.reliability ?? "absent"))].join(", "),
        others.length > 0 ? `${shown(measure, Math.max(...others))} (middle ${shown(measure, middleOf(others))})` : "absent",
      ];
    }),
  );
  return table(["captures", levelUnit, "truth", `${name(measure)} at each seed`, "worst error", "relied on", "most in the others"], rows);
}

export const togetherFollowed = ({ measure, defect }: TogetherLadder, rungs: readonly TogetherRung[]): Followed[] =>
  COUNTS.map((count) => followedBy(measure, `${defect}, of ${count}`, pairsOf(rungs, count, measure)));

const pairsOf = (rungs: readonly TogetherRung[], count: 2 | 3, measure: MeasureName): Pair[] =>
  rungs.map((rung) => ({ level: rung.level, truth: rung.truth, told: ofCount(rung, count)[0]?.[measure] }));

/** How far the detail of a capture goes that is ever softer, at each seed, against the truth there. */
export function detailTable(rungs: readonly DetailRung[]): string {
  const rows = COUNTS.flatMap((count) =>
    [...new Set(rungs.map(({ blurMm }) => blurMm))].map((blurMm) => {
      const here = rungs.filter((rung) => rung.captures === count && rung.blurMm === blurMm);
      const pairs = detailPairs(here);
      const errors = pairs.map(errorOf).filter((error) => error !== null);
      return [
        count,
        blurMm,
        pairs.map(({ truth }) => shown("detailCyPerMm", truth, "beyond the sampling")).join(", "),
        pairs.map(({ told }) => `${told?.bound === "lower" ? "at least " : ""}${shown("detailCyPerMm", told?.value)}`).join(", "),
        errors.length > 0 ? shown("detailCyPerMm", Math.max(...errors)) : "",
        [...new Set(pairs.map(({ told }) => told?.reliability ?? "absent"))].join(", "),
      ];
    }),
  );
  return table(
    ["captures", "blur of the soft one, mm", "truth at each seed", "`detailCyPerMm` at each seed", "worst error", "relied on"],
    rows,
  );
}

export const detailFollowed = (rungs: readonly DetailRung[]): Followed[] =>
  COUNTS.map((count) =>
    followedBy(
      "detailCyPerMm",
      `one soft capture among sharp ones, of ${count}`,
      detailPairs(rungs.filter(({ captures }) => captures === count)),
    ),
  );

const detailPairs = (rungs: readonly DetailRung[]): Pair[] =>
  rungs.map(({ blurMm, truth, told }) => ({ level: blurMm, truth, told: told.detailCyPerMm }));

/** Of each edit: whether the copy is told of its source, and what is said of another exposure with the same set-up. */
export function copiesTable(copied: readonly Copied[]): string {
  const count = (bonds: readonly Bond[], one: Bond) => `${bonds.filter((bond) => bond === one).length} of ${bonds.length}`;
  const rows = [...new Set(copied.map(({ what }) => what))].map((what) => {
    const here = copied.filter((each) => each.what === what);
    const [source, bystander] = [here.map(({ ofSource }) => ofSource), here.map(({ ofBystander }) => ofBystander)];
    return [what, count(source, "same"), count(source, "shared"), count(source, "absent"), count(bystander, "same")];
  });
  return table(
    ["the copy was", "told as the same exposure", "only said to share noise", "absent", "another exposure told as a copy"],
    rows,
  );
}
