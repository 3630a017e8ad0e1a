import { asc, eq, sql } from "drizzle-orm";
import type { DatedFinding } from "#domain/condition/finding.ts";
import type { Judgement } from "#domain/condition/judgements.ts";
import { type Queryable, schema } from "../client.ts";
import { groupBy } from "./group-by.ts";

const { findings, surveys } = schema;

const JUDGEMENT = {
  id: findings.id,
  surveyId: findings.surveyId,
  surveyedOn: surveys.surveyedOn,
  printId: surveys.printId,
  term: findings.term,
  severity: findings.severity,
  activity: findings.activity,
  side: findings.side,
  note: findings.note,
  change: findings.change,
  earlierFindingId: findings.earlierFindingId,
};

export type LatestFinding = DatedFinding & { readonly printId: number };

/** What the last finished survey of each print found, by print id; prints without one are left out. */
export function latestFindings(db: Queryable, printIds: readonly number[]): Map<number, LatestFinding[]> {
  const last = sql`${surveys.id} = (
    select s.id from ${surveys} s where s.print_id = ${surveys.printId} and s.finished_at is not null
    order by s.surveyed_on desc, s.id desc limit 1)`;
  const rows = db
    .select(JUDGEMENT)
    .from(findings)
    .innerJoin(surveys, eq(surveys.id, findings.surveyId))
    .where(sql`${surveys.printId} in (select value from json_each(${JSON.stringify(printIds)})) and ${last}`)
    .orderBy(asc(findings.id))
    .all();
  return groupBy(rows, (row) => row.printId);
}

/** Every judgement of every finished survey of a print, from the earliest survey on. */
export function judgementsOfPrint(db: Queryable, printId: number): DatedFinding[] {
  return db
    .select(JUDGEMENT)
    .from(findings)
    .innerJoin(surveys, eq(surveys.id, findings.surveyId))
    .where(sql`${surveys.printId} = ${printId} and ${surveys.finishedAt} is not null`)
    .orderBy(asc(surveys.surveyedOn), asc(surveys.id), asc(findings.id))
    .all();
}

export function insertFinding(db: Queryable, surveyId: number, finding: Judgement): void {
  db.insert(findings)
    .values({ ...finding, surveyId })
    .run();
}
