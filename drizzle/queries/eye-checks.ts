import { and, eq, isNull, sql } from "drizzle-orm";
import type { Side } from "#domain/capture/capture.ts";
import type { EyeAnswer, Judged } from "#domain/master/eye-check.ts";
import { type Queryable, schema } from "../client.ts";
import { standsAs } from "./standing-captures.ts";

const { choices, eyeChecks, prints, purposes } = schema;

export type EyeCheck = typeof eyeChecks.$inferSelect;
export type NewEyeCheck = Omit<typeof eyeChecks.$inferInsert, "id" | "address" | "answer" | "answeredAt">;

/** A pair that the rule has told apart: its master and the runner-up. */
export type PairToCheck = Pick<EyeCheck, "printId" | "side" | "purposeId" | "aimId" | "ruleId" | "decisive" | "closeCall"> & {
  readonly otherId: number;
};

export function insertEyeCheck(db: Queryable, made: NewEyeCheck): EyeCheck {
  return db.insert(eyeChecks).values(made).returning().get();
}

export function findEyeCheck(db: Queryable, address: string): EyeCheck | null {
  return db.select().from(eyeChecks).where(eq(eyeChecks.address, address)).get() ?? null;
}

/** What a person was shown and has not answered yet, of a purpose or of one side of a print for it. */
export function findOpenEyeCheck(db: Queryable, of: { userId: number; purposeId: number; printId?: number; side?: Side }): EyeCheck | null {
  const isMeant = [
    eq(eyeChecks.userId, of.userId),
    eq(eyeChecks.purposeId, of.purposeId),
    ...(of.printId === undefined ? [] : [eq(eyeChecks.printId, of.printId)]),
    ...(of.side === undefined ? [] : [eq(eyeChecks.side, of.side)]),
    isNull(eyeChecks.answer),
  ];
  return (
    db
      .select()
      .from(eyeChecks)
      .where(and(...isMeant))
      .limit(1)
      .get() ?? null
  );
}

/** Keeps an answer, once: whether this one was kept. */
export function answerEyeCheck(db: Queryable, id: number, answer: EyeAnswer | "not-shown", now: string): boolean {
  const { changes } = db
    .update(eyeChecks)
    .set({ answer, answeredAt: now })
    .where(and(eq(eyeChecks.id, id), isNull(eyeChecks.answer)))
    .run();
  return changes === 1;
}

/** What a person has judged for a purpose, by everybody. */
export function judgedByEye(db: Queryable, purposeId: number): Judged[] {
  return db
    .select({
      answer: eyeChecks.answer,
      isLeft: sql<number>`${eyeChecks.ruleId} = ${eyeChecks.leftId}`,
      decisive: eyeChecks.decisive,
      closeCall: eyeChecks.closeCall,
    })
    .from(eyeChecks)
    .where(and(eq(eyeChecks.purposeId, purposeId), sql`${eyeChecks.answer} in ('left', 'right', 'cannot-tell')`))
    .all()
    .map(({ answer, isLeft, ...judged }) => ({
      ...judged,
      agrees: answer === "cannot-tell" ? null : (answer === "left") === (isLeft === 1),
    }));
}

/** Pairs of a purpose that a person was not shown yet: of all its choices, or of one. */
export function listPairsToCheck(db: Queryable, of: { purposeId: number; userId: number; choiceId?: number }): PairToCheck[] {
  const masterId = sql<number>`json_extract(${choices.explanation}, '$.masterId')`;
  const runnerUpId = sql<number>`json_extract(${choices.explanation}, '$.runnerUpId')`;
  return db
    .select({
      printId: choices.printId,
      side: choices.side,
      purposeId: choices.purposeId,
      aimId: choices.aimId,
      ruleId: masterId,
      otherId: runnerUpId,
      decisive: sql<string | null>`json_extract(${choices.explanation}, '$.decisive')`,
      closeCall: sql<number>`json_extract(${choices.explanation}, '$.closeCall')`,
    })
    .from(choices)
    .innerJoin(prints, and(eq(prints.id, choices.printId), isNull(prints.binnedAt)))
    .innerJoin(purposes, and(eq(purposes.id, choices.purposeId), isNull(purposes.setAsideAt)))
    .where(
      and(
        eq(choices.purposeId, of.purposeId),
        isNull(choices.supersededAt),
        of.choiceId === undefined ? sql`1` : eq(choices.id, of.choiceId),
        sql`${masterId} is not null and ${runnerUpId} is not null`,
        sql`(select count(*) from captures c where c.id in (${masterId}, ${runnerUpId})
          and c.print_id = ${choices.printId} and c.side = ${choices.side} and ${standsAs("c")}) = 2`,
        // asked once for all pairs: a subquery that looked at the pair would go through every answer for each
        sql`(min(${masterId}, ${runnerUpId}), max(${masterId}, ${runnerUpId})) not in (
          select min(e.left_id, e.right_id), max(e.left_id, e.right_id) from eye_checks e
          where e.user_id = ${of.userId} and e.purpose_id = ${of.purposeId} and e.answer is not null)`,
      ),
    )
    .all()
    .map((pair) => ({ ...pair, closeCall: pair.closeCall === 1 }));
}
