import { and, asc, gt, isNull, sql } from "drizzle-orm";
import type { Grade } from "#domain/condition/grade.ts";
import { type NextSurvey, nextSurvey } from "#domain/condition/next-survey.ts";
import { type Queryable, schema } from "../client.ts";
import { groupBy } from "./group-by.ts";
import { insidePlace } from "./prints.ts";

const { findings, prints, surveys } = schema;

type OfPrint = { readonly printId: number; readonly objectNumber: string; readonly title: string; readonly placeId: number | null };

/** A print that was looked at, with the day by which it asks to be looked at again. */
export type DueLine = OfPrint & NextSurvey & { readonly surveyedOn: string; readonly grade: Grade | null };

export type DueFilter = { /** the place and every place inside it */ readonly placeId: number | null };

/** Every print of the collection that was ever looked at, the soonest due first. */
export function dueLines(db: Queryable, { placeId }: DueFilter = { placeId: null }): DueLine[] {
  const rows = db
    .select({
      printId: prints.id,
      objectNumber: prints.objectNumber,
      title: prints.title,
      placeId: prints.placeId,
      processId: prints.processId,
      surveyId: surveys.id,
      surveyedOn: surveys.surveyedOn,
      grade: surveys.grade,
    })
    .from(prints)
    .innerJoin(
      surveys,
      sql`${surveys.id} = (select s.id from surveys s where s.print_id = ${prints.id} and s.finished_at is not null
        order by s.surveyed_on desc, s.id desc limit 1)`,
    )
    .where(and(isNull(prints.binnedAt), placeId === null ? undefined : insidePlace(placeId)))
    .orderBy(asc(prints.objectNumberSort))
    .all();
  const standing = findingsOf(
    db,
    rows.map(({ surveyId }) => surveyId),
  );
  return rows
    .map(({ processId, surveyId, ...row }) => ({ ...row, ...nextSurvey({ ...row, processId, findings: standing.get(surveyId) ?? [] }) }))
    .toSorted((a, b) => (a.dueOn < b.dueOn ? -1 : a.dueOn > b.dueOn ? 1 : 0));
}

/** Prints that nobody has looked at yet, by number: one page of them, and how many there are. */
export function neverLooked(db: Queryable, { placeId }: DueFilter, most: number): { rows: OfPrint[]; total: number } {
  const meant = and(
    isNull(prints.binnedAt),
    placeId === null ? undefined : insidePlace(placeId),
    sql`not exists (select 1 from surveys s where s.print_id = ${prints.id} and s.finished_at is not null)`,
  );
  const rows = db
    .select({ printId: prints.id, objectNumber: prints.objectNumber, title: prints.title, placeId: prints.placeId })
    .from(prints)
    .where(meant)
    .orderBy(asc(prints.objectNumberSort))
    .limit(most)
    .all();
  const total = db.select({ n: sql<number>`count(*)` }).from(prints).where(meant).get()?.n ?? 0;
  return { rows, total };
}

function findingsOf(db: Queryable, surveyIds: readonly number[]) {
  const rows = db
    .select({ surveyId: findings.surveyId, term: findings.term, severity: findings.severity, activity: findings.activity })
    .from(findings)
    .where(and(sql`${findings.surveyId} in (select value from json_each(${JSON.stringify(surveyIds)}))`, gt(findings.severity, 0)))
    .all();
  return groupBy(rows, (row) => row.surveyId);
}
