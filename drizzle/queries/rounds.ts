import { and, asc, desc, eq, isNull, sql } from "drizzle-orm";
import type { Grade } from "#domain/condition/grade.ts";
import type { Round, RoundCounts } from "#domain/condition/round.ts";
import { type Queryable, schema } from "../client.ts";

const { prints, roundPrints, rounds, surveys } = schema;

export type NewRound = Omit<Round, "id"> & { readonly userId: number; readonly printIds: readonly number[] };
export type RoundListed = Round & RoundCounts;
export type RoundLine = {
  readonly printId: number;
  readonly objectNumber: string;
  readonly title: string;
  readonly surveyId: number | null;
  readonly passedAt: string | null;
  readonly grade: Grade | null;
  readonly hasActive: boolean;
};

export function insertRound(db: Queryable, { printIds, ...round }: NewRound): number {
  const { roundId } = db.insert(rounds).values(round).returning({ roundId: rounds.id }).get();
  for (const [position, printId] of printIds.entries()) db.insert(roundPrints).values({ roundId, printId, position }).run();
  return roundId;
}

/** Prints in the bin have left the round; a print looked at meanwhile in another way has not. */
const counts = {
  all: sql<number>`count(${prints.id})`,
  looked: sql<number>`count(case when ${prints.id} is not null then ${roundPrints.surveyId} end)`,
  passed: sql<number>`count(case when ${prints.id} is not null and ${roundPrints.surveyId} is null then ${roundPrints.passedAt} end)`,
};

const listed = (db: Queryable) =>
  db
    .select({ round: rounds, ...counts })
    .from(rounds)
    .leftJoin(roundPrints, eq(roundPrints.roundId, rounds.id))
    .leftJoin(prints, and(eq(prints.id, roundPrints.printId), isNull(prints.binnedAt)))
    .groupBy(rounds.id)
    .$dynamic();

/** The newest first. */
export function listRounds(db: Queryable, most = 100): RoundListed[] {
  return listed(db).orderBy(desc(rounds.id)).limit(most).all().map(told);
}

export function findRound(db: Queryable, id: number): RoundListed | null {
  const row = listed(db).where(eq(rounds.id, id)).get();
  return row ? told(row) : null;
}

const told = ({ round: { userId: _, ...round }, ...counted }: { round: typeof rounds.$inferSelect } & RoundCounts): RoundListed => ({
  ...round,
  ...counted,
});

/** The prints of a round in its order, with what the look of this round said. */
export function linesOfRound(db: Queryable, roundId: number): RoundLine[] {
  return db
    .select({
      printId: prints.id,
      objectNumber: prints.objectNumber,
      title: prints.title,
      surveyId: roundPrints.surveyId,
      passedAt: roundPrints.passedAt,
      grade: surveys.grade,
      hasActive:
        sql<boolean>`exists (select 1 from findings f where f.survey_id = ${roundPrints.surveyId} and f.activity = 'active' and f.severity > 0)`.mapWith(
          Boolean,
        ),
    })
    .from(roundPrints)
    .innerJoin(prints, eq(prints.id, roundPrints.printId))
    .leftJoin(surveys, eq(surveys.id, roundPrints.surveyId))
    .where(and(eq(roundPrints.roundId, roundId), isNull(prints.binnedAt)))
    .orderBy(asc(roundPrints.position))
    .all();
}

export function setLooked(db: Queryable, of: { roundId: number; printId: number }, surveyId: number): void {
  db.update(roundPrints)
    .set({ surveyId, passedAt: null })
    .where(and(eq(roundPrints.roundId, of.roundId), eq(roundPrints.printId, of.printId)))
    .run();
}

export function setPassed(db: Queryable, of: { roundId: number; printId: number }, passedAt: string): void {
  db.update(roundPrints)
    .set({ passedAt })
    .where(and(eq(roundPrints.roundId, of.roundId), eq(roundPrints.printId, of.printId), isNull(roundPrints.surveyId)))
    .run();
}
