import { eq, sql } from "drizzle-orm";
import type { Survey } from "#domain/condition/survey.ts";
import { type Queryable, schema } from "../client.ts";

const { surveys, users } = schema;

export type NewSurvey = Omit<Survey, "id" | "who"> & {
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
      who: users.name,
    })
    .from(surveys)
    .leftJoin(users, eq(users.id, surveys.userId))
    .where(sql`${surveys.printId} in (select value from json_each(${JSON.stringify(printIds)})) and ${surveys.finishedAt} is not null`)
    .orderBy(surveys.surveyedOn, surveys.id)
    .all();
  return new Map(rows.map(({ printId, ...survey }) => [printId, survey]));
}

export function lastSurvey(db: Queryable, printId: number): Survey | null {
  return lastSurveys(db, [printId]).get(printId) ?? null;
}

export function insertSurvey(db: Queryable, survey: NewSurvey): number {
  return db.insert(surveys).values(survey).returning({ id: surveys.id }).get().id;
}
