import type { ReleaseInput } from "#domain/master/schema.ts";
import { done, type Outcome, refused } from "#domain/outcome.ts";
import { currentAims } from "#drizzle/queries/aims.ts";
import { candidatesOfPrint } from "#drizzle/queries/candidates.ts";
import { findCurrentChoice } from "#drizzle/queries/choices.ts";
import type { Context } from "../context.ts";
import { choiceByRule } from "./choose-masters.ts";
import { recordChoice } from "./record-choice.ts";

/** Gives a choice that a person made back to the rule. */
export function releaseMaster(context: Context, input: ReleaseInput & { printId: number }): Outcome<{ captureId: number | null }> {
  const { printId, side, purposeKey } = input;
  return context.db.transaction((tx) => {
    const aim = currentAims(tx).find((each) => each.purpose.key === purposeKey);
    const held = aim ? findCurrentChoice(tx, { printId, side, purposeId: aim.purpose.id }) : null;
    if (!aim || held?.decidedBy !== "person")
      return refused({
        about: "purposeKey",
        happened: "Nobody has chosen this master by hand.",
        remedy: "There is nothing to give back: the rule decides already.",
      });
    const made = choiceByRule({ printId, side, aim, candidates: candidatesOfPrint(tx, printId)[side] });
    recordChoice(tx, context, { made, held, purpose: aim.purpose, verb: "released", userId: context.userId });
    return done({ captureId: made.captureId });
  });
}
