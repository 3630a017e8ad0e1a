import { randomInt } from "node:crypto";
import type { LaidSide } from "#domain/comparison/laid-side.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import { findPurpose } from "#drizzle/queries/aims.ts";
import { type EyeCheck, findOpenEyeCheck, insertEyeCheck, listPairsToCheck, type PairToCheck } from "#drizzle/queries/eye-checks.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import type { Context } from "../context.ts";
import { laySideOfPrint } from "./lay-side-of-print.ts";

/** Sides whose pictures are asked for before a draw gives up: each may have to be looked up on disk. */
const MOST_TRIED = 20;

/**
 * Draws two captures of one side for a person to compare without knowing which is which: the rule's master and the runner-up of a choice
 * they have not judged yet, any as likely as another, and either as likely to stand left. Which is which is kept here and told by no
 * address. What was drawn and not answered comes up again, so that nobody can draw until they like the pair.
 * @param of.choiceId only of this choice
 * @param of.below a whole number from 0 below its argument; replaced in tests
 */
export async function drawEyeCheck(
  context: Context,
  of: { purposeKey: string; choiceId?: number; below?: (most: number) => number },
): Promise<Outcome<EyeCheck>> {
  const { db, userId } = context;
  const below = of.below ?? ((most) => randomInt(most));
  const purpose = findPurpose(db, of.purposeKey);
  if (!purpose) return refused(NONE);
  const pairs = listPairsToCheck(db, { purposeId: purpose.id, userId, ...(of.choiceId !== undefined && { choiceId: of.choiceId }) });
  const [asked] = pairs;
  const open = findOpenEyeCheck(db, {
    userId,
    purposeId: purpose.id,
    ...(of.choiceId !== undefined && asked && { printId: asked.printId, side: asked.side }),
  });
  if (open && (of.choiceId === undefined || asked)) return done(open);
  for (let tried = 0; tried < MOST_TRIED && pairs.length > 0; tried++) {
    const [pair] = pairs.splice(below(pairs.length), 1) as [PairToCheck];
    if (!(await canBeShown(context, pair))) continue;
    const { otherId, ...kept } = pair;
    const [leftId, rightId] = below(2) === 0 ? [pair.ruleId, otherId] : [otherId, pair.ruleId];
    return done(insertEyeCheck(db, { ...kept, leftId, rightId, userId, createdAt: context.now() }));
  }
  return refused(NONE);
}

/** Both lie on each other, or are being laid. */
async function canBeShown(context: Context, { printId, side, ruleId, otherId }: PairToCheck): Promise<boolean> {
  const print = findPrint(context.db, printId);
  if (!print) return false;
  const laying = await laySideOfPrint(context, print, side);
  if ("refused" in laying) return false;
  return "done" in laying || [ruleId, otherId].every((id) => liesOnOthers(laying.laid, id));
}

/** A capture that could not be lined up may show another place: the eye would judge that, and not the capture. */
export const liesOnOthers = ({ captures }: LaidSide, id: number): boolean =>
  captures.some(({ captureId, laidBy }) => captureId === id && laidBy !== "corners");

const NONE: Refusal = {
  about: null,
  happened: "There is no pair left that you have not judged.",
  remedy: "Pairs come with every print that has two captures good enough for this purpose.",
};
