import { and, asc, eq, gt, sql } from "drizzle-orm";
import type { DatedFinding } from "#domain/condition/finding.ts";
import type { Judgement } from "#domain/condition/judgements.ts";
import type { MarkedRegion } from "#domain/condition/marked-region.ts";
import { type Queryable, schema } from "../client.ts";
import { groupBy } from "./group-by.ts";

const { findingRegions, findings, surveys } = schema;

/** The regions of a finding in the order they were marked. */
const regionsOfFinding = sql<readonly MarkedRegion[]>`(
  select json_group_array(json(r.points_mm)) from (
    select points_mm from finding_regions where finding_id = "findings"."id" order by id) r)`.mapWith((json: string) => JSON.parse(json));

const JUDGEMENT = {
  id: findings.id,
  surveyId: findings.surveyId,
  surveyedOn: surveys.surveyedOn,
  lookedAtBy: surveys.lookedAtBy,
  printId: surveys.printId,
  term: findings.term,
  severity: findings.severity,
  activity: findings.activity,
  side: findings.side,
  extent: findings.extent,
  regions: regionsOfFinding,
  note: findings.note,
  change: findings.change,
  earlierFindingId: findings.earlierFindingId,
};

const isOfLastSurvey = sql`${surveys.id} = (
  select s.id from ${surveys} s where s.print_id = ${surveys.printId} and s.finished_at is not null
  order by s.surveyed_on desc, s.id desc limit 1)`;

export type LatestFinding = DatedFinding & { readonly printId: number };

/** What the last finished survey of each print found, by print id; prints without one are left out. */
export function latestFindings(db: Queryable, printIds: readonly number[]): Map<number, LatestFinding[]> {
  const rows = db
    .select(JUDGEMENT)
    .from(findings)
    .innerJoin(surveys, eq(surveys.id, findings.surveyId))
    .where(sql`${surveys.printId} in (select value from json_each(${JSON.stringify(printIds)})) and ${isOfLastSurvey}`)
    .orderBy(asc(findings.id))
    .all();
  return groupBy(rows, (row) => row.printId);
}

/** What the last finished survey of a print found and still stands, with what another program needs to cite it. */
export function annotatedFindings(db: Queryable, printId: number): (LatestFinding & { uuid: string; at: string })[] {
  return db
    .select({ ...JUDGEMENT, uuid: findings.uuid, at: sql<string>`${surveys.finishedAt}` })
    .from(findings)
    .innerJoin(surveys, eq(surveys.id, findings.surveyId))
    .where(and(eq(surveys.printId, printId), gt(findings.severity, 0), isOfLastSurvey))
    .orderBy(asc(findings.id))
    .all();
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

export function insertFinding(db: Queryable, surveyId: number, { regions, ...finding }: Judgement): void {
  const { findingId } = db
    .insert(findings)
    .values({ ...finding, surveyId })
    .returning({ findingId: findings.id })
    .get();
  for (const region of regions)
    db.insert(findingRegions)
      .values({ findingId, pointsMm: [...region] })
      .run();
}
