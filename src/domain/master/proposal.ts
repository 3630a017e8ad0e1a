import type { Choice } from "./choice.ts";
import type { Judgement } from "./judgement.ts";

/** What the rule would put in the place of a person's choice, because of a capture that came later. */
export type Proposal = {
  readonly id: number;
  /** the person's choice that it is about */
  readonly choiceId: number;
  readonly captureId: number;
  /** the rule's reason, one plain sentence */
  readonly sentence: string;
  readonly createdAt: string;
};

/**
 * The capture that the rule proposes in the place of a person's choice; null where there is nothing to propose. Only a capture that had
 * nothing to show when the person decided is proposed: what they saw and passed over is theirs to judge, and what they declined is not
 * put before them again.
 */
export function captureToPropose(
  held: Pick<Choice, "captureId" | "explanation">,
  ruled: Pick<Judgement, "masterId">,
  declined: readonly number[],
): number | null {
  const { masterId } = ruled;
  if (masterId === null || masterId === held.captureId || declined.includes(masterId)) return null;
  const asSeen = held.explanation.verdicts.find(({ captureId }) => captureId === masterId);
  return asSeen === undefined || asSeen.overall === null ? masterId : null;
}
