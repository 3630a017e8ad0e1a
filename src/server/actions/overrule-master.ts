import type { OverruleInput } from "#domain/master/schema.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import { currentAims } from "#drizzle/queries/aims.ts";
import { candidatesOfPrint } from "#drizzle/queries/candidates.ts";
import { findCurrentChoice } from "#drizzle/queries/choices.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import type { Context } from "../context.ts";
import { choiceByRule } from "./choose-masters.ts";
import { recordChoice } from "./record-choice.ts";

/**
 * Makes a capture the master because a person says so. It stands until it is released, whatever
 * the measures say; the reason stays in the history.
 */
export function overruleMaster(
  context: Context,
  input: OverruleInput & { printId: number },
): Outcome<{ printId: number; captureId: number }> {
  const { printId, side, purposeKey, captureId, reason } = input;
  return context.db.transaction((tx) => {
    if (reason.trim() === "") return refused(problem("reason", "No reason was given.", "Say why, so that the next keeper understands."));
    const print = findPrint(tx, printId);
    if (!print) return refused(problem("printId", "This print does not exist.", "Go back to the list of prints and choose another."));
    const aim = currentAims(tx).find((each) => each.purpose.key === purposeKey);
    if (!aim) return refused(problem("purposeKey", "This purpose does not exist.", "Choose one of the purposes of the collection."));
    const candidates = candidatesOfPrint(tx, printId)[side];
    const chosen = candidates.find((candidate) => candidate.captureId === captureId);
    if (!chosen)
      return refused(
        problem("captureId", `This capture does not show the ${side} of ${print.objectNumber}.`, "Choose one of its captures."),
      );
    const byRule = choiceByRule({ printId, side, aim, candidates });
    const against = candidates.find((candidate) => candidate.captureId === byRule.captureId && candidate !== chosen);
    const made = {
      ...byRule,
      captureId,
      runnerUpId: against?.captureId ?? byRule.runnerUpId,
      decidedBy: "person" as const,
      userId: context.userId,
      reason: reason.trim(),
      sentence: `${chosen.fileName} was chosen by hand${against ? `; the rule would choose ${against.fileName}` : ""}. Reason given: ${reason.trim()}`,
    };
    const held = findCurrentChoice(tx, { printId, side, purposeId: aim.purpose.id });
    recordChoice(tx, context, { made, held, purpose: aim.purpose, verb: "overruled", userId: context.userId });
    return done({ printId, captureId });
  });
}

const problem = (about: string, happened: string, remedy: string): Refusal => ({ about, happened, remedy });
