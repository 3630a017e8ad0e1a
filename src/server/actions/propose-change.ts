import type { Choice } from "#domain/master/choice.ts";
import { captureToPropose } from "#domain/master/proposal.ts";
import type { Queryable } from "#drizzle/client.ts";
import type { NewChoice } from "#drizzle/queries/choices.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { declinedFor, endProposal, findOpenProposal, insertProposal } from "#drizzle/queries/proposals.ts";
import type { Context } from "../context.ts";

/**
 * Puts a later, better capture before the person whose choice holds, instead of putting it in its place. What waits already waits on;
 * where the rule would by now choose otherwise, it lapses.
 */
export function proposeChange(tx: Queryable, context: Pick<Context, "now">, held: Choice, byRule: NewChoice): void {
  const proposed = captureToPropose(held, byRule.explanation, declinedFor(tx, held.id));
  const open = findOpenProposal(tx, held.id);
  if ((open?.captureId ?? null) === proposed) return;
  const now = context.now();
  if (open) endProposal(tx, held.id, "lapsed", { now, userId: null });
  if (proposed === null) return;
  insertProposal(tx, { choiceId: held.id, captureId: proposed, aimId: byRule.aimId, sentence: byRule.sentence }, now);
  recordEvent(tx, {
    at: now,
    userId: null,
    verb: "proposed",
    subject: "choice",
    subjectId: held.id,
    printId: held.printId,
    detail: {
      side: held.side,
      purpose: held.purpose.key,
      purposeName: held.purpose.name,
      from: held.captureId,
      to: proposed,
      sentence: byRule.sentence,
    },
  });
}
