import type { Purpose } from "#domain/aim/aim.ts";
import type { Choice } from "#domain/master/choice.ts";
import type { Queryable } from "#drizzle/client.ts";
import { type NewChoice, replaceChoice } from "#drizzle/queries/choices.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { endProposal } from "#drizzle/queries/proposals.ts";
import type { Context } from "../context.ts";
import { settleWorkSheetRows } from "./settle-work-sheet-rows.ts";

type Recorded = {
  made: NewChoice;
  /** the choice that held until now */
  held: Choice | null;
  purpose: Purpose;
  verb: "chosen" | "overruled" | "released" | "lapsed" | "accepted";
  /** null: the program, by the rule */
  userId: number | null;
};

/**
 * Puts a choice in the place of the one that held. The history gets a line, except where the rule
 * keeps its master and only the numbers moved (those stay in the superseded rows), and where it
 * found no capture measured yet. Work sheets follow what is chosen.
 */
export function recordChoice(tx: Queryable, context: Pick<Context, "now">, { made, held, purpose, verb, userId }: Recorded): void {
  const at = context.now();
  if (held) endProposal(tx, held.id, "lapsed", { now: at, userId: null });
  const choiceId = replaceChoice(tx, made, at);
  settleWorkSheetRows(tx, context, made);
  if (verb === "chosen" && (held === null ? isOfNothing(made) : held.captureId === made.captureId)) return;
  recordEvent(tx, {
    at,
    userId,
    verb,
    subject: "choice",
    subjectId: choiceId,
    printId: made.printId,
    detail: {
      side: made.side,
      purpose: purpose.key,
      purposeName: purpose.name,
      from: held?.captureId ?? null,
      to: made.captureId,
      reason: made.reason,
      sentence: made.sentence,
    },
  });
}

const isOfNothing = ({ captureId, explanation }: NewChoice): boolean =>
  captureId === null && explanation.verdicts.every(({ overall }) => overall === null);
