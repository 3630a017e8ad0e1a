import { desc, isNotNull, sql } from "drizzle-orm";
import type { Survey } from "#domain/condition/survey.ts";
import { type Queryable, schema } from "../client.ts";

const { surveys } = schema;

export type NewSurvey = Omit<Survey, "id"> & {
  readonly printId: number;
  readonly userId: number;
  readonly finishedAt: string;
};

/** The last finished survey of each print, by print id; prints without one are left out. */
export function lastSurveys(db: Queryable, printIds: readonly number[]): Map<number, Survey> {
  const rows = db
    .select({
      id: surveys.id,
      printId: surveys.printId,
      surveyedOn: surveys.surveyedOn,
      grade: surveys.grade,
      gradeBasis: surveys.gradeBasis,
      note: surveys.note,
      lookedAtBy: surveys.lookedAtBy,
    })
    .from(surveys)
    .where(sql`${surveys.printId} in (select value from json_each(${JSON.stringify(printIds)})) and ${surveys.finishedAt} is not null`)
    .orderBy(surveys.surveyedOn, surveys.id)
    .all();
  return new Map(rows.map(({ printId, ...survey }) => [printId, survey]));
}

export function lastSurvey(db: Queryable, printId: number): Survey | null {
  return lastSurveys(db, [printId]).get(printId) ?? null;
}

/** By whom the look that was kept last was made, of whichever print; null: nobody was named, or nothing was looked at yet. */
export function lastLookedAtBy(db: Queryable): string | null {
  const last = db.select({ lookedAtBy: surveys.lookedAtBy }).from(surveys).where(isNotNull(surveys.finishedAt)).orderBy(desc(surveys.id));
  return last.limit(1).get()?.lookedAtBy ?? null;
}

export function insertSurvey(db: Queryable, survey: NewSurvey): number {
  return db.insert(surveys).values(survey).returning({ id: surveys.id }).get().id;
}
