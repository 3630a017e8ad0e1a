import { isDeepStrictEqual } from "node:util";
import type { Aim } from "#domain/aim/aim.ts";
import { SIDES, type Side } from "#domain/capture/capture.ts";
import type { Choice } from "#domain/master/choice.ts";
import { type Candidate, choose } from "#domain/master/choose.ts";
import { explain } from "#domain/master/explain.ts";
import type { Turn } from "#domain/master/judgement.ts";
import type { Queryable } from "#drizzle/client.ts";
import { currentAims } from "#drizzle/queries/aims.ts";
import { candidatesOfPrint, listPrintsToChooseFor } from "#drizzle/queries/candidates.ts";
import { listChoicesOfPrint, type NewChoice } from "#drizzle/queries/choices.ts";
import type { Context } from "../context.ts";
import { proposeChange } from "./propose-change.ts";
import { recordChoice } from "./record-choice.ts";
import { settleWorkSheetRows } from "./settle-work-sheet-rows.ts";

export type ChosenMaster = {
  printId: number;
  side: Side;
  purpose: string;
  captureId: number | null;
  decidedBy: "rule" | "person";
  sentence: string;
  /** how sure the rule is, what decided, and what would turn it: see domain/master/judgement.ts */
  sureness: number | null;
  closeCall: boolean;
  decisive: string | null;
  turn: Turn | null;
};

/**
 * Chooses the master of each side and purpose by the rule, for the given prints and purpose or for all. What
 * has not changed is not written anew, and a person's choice stands as long as its capture still
 * shows that side of the print: a better one that came later is proposed to them. A side that never had a capture has no choice.
 */
export function chooseMasters(context: Context, input: { printIds?: readonly number[]; purposeKey?: string } = {}): ChosenMaster[] {
  const aims = currentAims(context.db).filter(({ purpose }) => input.purposeKey === undefined || purpose.key === input.purposeKey);
  const printIds = input.printIds ?? listPrintsToChooseFor(context.db);
  return printIds.flatMap((printId) => context.db.transaction((tx) => choosePrint(tx, context, printId, aims)));
}

function choosePrint(tx: Queryable, context: Context, printId: number, aims: readonly Aim[]): ChosenMaster[] {
  const candidates = candidatesOfPrint(tx, printId);
  const current = listChoicesOfPrint(tx, printId);
  return SIDES.flatMap((side) =>
    aims.flatMap((aim) => {
      const held = current.find((choice) => choice.side === side && choice.purpose.id === aim.purpose.id) ?? null;
      if (candidates[side].length === 0 && held === null) return [];
      const { captureId, decidedBy, sentence, explanation } = settle(tx, context, {
        printId,
        side,
        aim,
        candidates: candidates[side],
        held,
      });
      const { sureness, closeCall, decisive, turn } = explanation;
      return [{ printId, side, purpose: aim.purpose.key, captureId, decidedBy, sentence, sureness, closeCall, decisive, turn }];
    }),
  );
}

type Case = { printId: number; side: Side; aim: Aim; candidates: readonly Candidate[]; held: Choice | null };

type Settled = Pick<Choice, "captureId" | "decidedBy" | "sentence" | "explanation">;

function settle(tx: Queryable, context: Context, { held, candidates, ...of }: Case): Settled {
  const made = choiceByRule({ ...of, candidates });
  if (held?.decidedBy === "person" && candidates.some((candidate) => candidate.captureId === held.captureId)) {
    proposeChange(tx, context, held, made);
    settleWorkSheetRows(tx, context, { ...made, captureId: held.captureId });
    return held;
  }
  if (held && isSame(held, made)) return held;
  const verb = held?.decidedBy === "person" ? "lapsed" : "chosen";
  recordChoice(tx, context, { made, held, purpose: of.aim.purpose, verb, userId: null });
  return made;
}

/** What the rule says, as it would be kept. */
export function choiceByRule({ printId, side, aim, candidates }: Omit<Case, "held">): NewChoice {
  const explanation = choose(candidates, aim.limits);
  return {
    printId,
    side,
    purposeId: aim.purpose.id,
    aimId: aim.id,
    captureId: explanation.masterId,
    runnerUpId: explanation.runnerUpId,
    decidedBy: "rule",
    userId: null,
    reason: null,
    sentence: explain(explanation, aim.limits),
    explanation,
  };
}

/** As JSON keeps it: −0 comes back as 0. */
const isSame = (held: Choice, made: NewChoice): boolean =>
  held.decidedBy === made.decidedBy &&
  held.aimId === made.aimId &&
  held.sentence === made.sentence &&
  isDeepStrictEqual(held.explanation, JSON.parse(JSON.stringify(made.explanation)));
