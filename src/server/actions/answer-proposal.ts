import { done, type Outcome, refused } from "#domain/outcome.ts";
import { currentAims } from "#drizzle/queries/aims.ts";
import { candidatesOfPrint } from "#drizzle/queries/candidates.ts";
import { findCurrentChoice } from "#drizzle/queries/choices.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { endProposal, listOpenProposals } from "#drizzle/queries/proposals.ts";
import type { Context } from "../context.ts";
import { choiceByRule } from "./choose-masters.ts";
import { recordChoice } from "./record-choice.ts";

export type ProposalAnswer = "accepted" | "declined";

/**
 * Accepts what the rule proposes, which is then the person's own choice and stands like any other of theirs, or declines it, so that the
 * same capture is not proposed again in the place of the same choice. Either stays in the history.
 */
export function answerProposal(
  context: Context,
  { printId, proposalId, answer }: { printId: number; proposalId: number; answer: ProposalAnswer },
): Outcome<{ answer: ProposalAnswer }> {
  return context.db.transaction((tx) => {
    const proposal = listOpenProposals(tx, { printId }).find(({ id }) => id === proposalId);
    if (!proposal) return refused(GONE);
    const { side, purpose, sentence, captureId, proposedName } = proposal;
    const held = findCurrentChoice(tx, { printId, side, purposeId: purpose.id });
    const aim = currentAims(tx).find((each) => each.purpose.id === purpose.id);
    const candidates = candidatesOfPrint(tx, printId)[side];
    if (!held || !aim || !candidates.some((candidate) => candidate.captureId === captureId)) return refused(GONE);
    const by = { now: context.now(), userId: context.userId };
    endProposal(tx, held.id, answer, by);
    if (answer === "accepted") {
      const byRule = choiceByRule({ printId, side, aim, candidates });
      const before = candidates.find((candidate) => candidate.captureId === held.captureId)?.fileName;
      const made = {
        ...byRule,
        captureId,
        runnerUpId: byRule.captureId === captureId ? byRule.runnerUpId : held.captureId,
        decidedBy: "person" as const,
        userId: context.userId,
        reason: `Accepted as proposed. ${sentence}`,
        sentence: `${proposedName} was accepted${before ? ` in the place of ${before}` : ""}, as the rule proposed. ${sentence}`,
      };
      recordChoice(tx, context, { made, held, purpose, verb: "accepted", userId: context.userId });
    } else
      recordEvent(tx, {
        at: by.now,
        userId: context.userId,
        verb: "declined",
        subject: "choice",
        subjectId: held.id,
        printId,
        detail: { side, purpose: purpose.key, purposeName: purpose.name, from: held.captureId, to: captureId, proposedName, sentence },
      });
    return done({ answer });
  });
}

const GONE = {
  about: null,
  happened: "This proposal does not wait any more: it was answered, or the captures have changed.",
  remedy: "See what holds now.",
};
