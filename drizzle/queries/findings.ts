import { asc, eq, sql } from "drizzle-orm";
import { type Queryable, schema } from "../client.ts";
import { groupBy } from "./group-by.ts";

const { findings, surveys } = schema;

export type LatestFinding = Pick<typeof findings.$inferSelect, "term" | "severity" | "activity" | "side"> & { printId: number };

/** What the last finished survey of each print found, by print id; prints without one are left out. */
export function latestFindings(db: Queryable, printIds: readonly number[]): Map<number, LatestFinding[]> {
  const last = sql`${surveys.id} = (
    select s.id from ${surveys} s where s.print_id = ${surveys.printId} and s.finished_at is not null
    order by s.surveyed_on desc, s.id desc limit 1)`;
  const rows = db
    .select({
      printId: surveys.printId,
      term: findings.term,
      severity: findings.severity,
      activity: findings.activity,
      side: findings.side,
    })
    .from(findings)
    .innerJoin(surveys, eq(surveys.id, findings.surveyId))
    .where(sql`${surveys.printId} in (select value from json_each(${JSON.stringify(printIds)})) and ${last}`)
    .orderBy(asc(findings.id))
    .all();
  return groupBy(rows, (row) => row.printId);
}
