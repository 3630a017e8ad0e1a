import { and, asc, count, desc, eq, inArray, min, sql } from "drizzle-orm";
import { type Queryable, schema } from "../client.ts";
import { captureName } from "./capture-name.ts";
import type { Work } from "./work.ts";

export type WorkState = (typeof schema.work.$inferSelect)["state"];

/** How many pieces of work stand where, ever since the collection was made. */
export type WorkProgress = Readonly<Record<WorkState, number>> & {
  /** of those done, the ones since work last stood still; 0 while it stands still */
  readonly doneOfThisRun: number;
  /** of those failed, the comparisons of captures */
  readonly failedComparisons: number;
};

export type FailedWork = { readonly captureId: number | null; readonly name: string | null; readonly error: string };

export function workProgress(db: Queryable): WorkProgress {
  const { state, kind } = schema.work;
  const progress = { waiting: 0, running: 0, done: 0, failed: 0, cancelled: 0, failedComparisons: 0 };
  const rows = db.select({ state, kind, count: count() }).from(schema.work).groupBy(state, kind).all();
  for (const row of rows) {
    progress[row.state] += row.count;
    if (row.state === "failed" && row.kind === "compare") progress.failedComparisons = row.count;
  }
  return { ...progress, doneOfThisRun: progress.waiting + progress.running > 0 ? countDoneOfThisRun(db) : 0 };
}

/** How many pieces of one kind stand where. */
export function countWork(db: Queryable, kind: Work["kind"]): Record<WorkState, number> {
  const { state } = schema.work;
  const rows = db.select({ state, count: count() }).from(schema.work).where(eq(schema.work.kind, kind)).groupBy(state).all();
  return { waiting: 0, running: 0, done: 0, failed: 0, cancelled: 0, ...Object.fromEntries(rows.map((row) => [row.state, row.count])) };
}

/** Goes back from the oldest open row as long as one piece of work ended while the next one was open already. */
function countDoneOfThisRun(db: Queryable): number {
  const { createdAt, finishedAt, state } = schema.work;
  const open = db
    .select({ since: min(createdAt) })
    .from(schema.work)
    .where(inArray(state, ["waiting", "running"]))
    .get();
  let since = open?.since ?? "";
  let done = 0;
  const ended = db.select({ createdAt, finishedAt }).from(schema.work).where(eq(state, "done")).orderBy(desc(finishedAt)).all();
  for (const row of ended) {
    if ((row.finishedAt ?? "") < since) break;
    done++;
    if (row.createdAt < since) since = row.createdAt;
  }
  return done;
}

/** What could not be worked on, with the words for the keeper, newest first. */
export function listFailedWork(db: Queryable, most = 200): FailedWork[] {
  return db
    .select({
      captureId: schema.work.captureId,
      name: captureName,
      error: sql<string>`ifnull(${schema.work.error}, '')`,
    })
    .from(schema.work)
    .leftJoin(schema.captures, eq(schema.captures.id, schema.work.captureId))
    .leftJoin(schema.originals, eq(schema.originals.id, schema.captures.originalId))
    .where(eq(schema.work.state, "failed"))
    .orderBy(sql`${schema.work.id} desc`)
    .limit(most)
    .all();
}

/** Where each capture's measuring stands; a capture without a row was never asked for. */
export function measuringOfCaptures(db: Queryable, captureIds: readonly number[]): Map<number, { state: WorkState; error: string | null }> {
  const rows = db
    .select({ captureId: schema.work.captureId, state: schema.work.state, error: schema.work.error })
    .from(schema.work)
    .where(
      and(eq(schema.work.kind, "measure"), sql`${schema.work.captureId} in (select value from json_each(${JSON.stringify(captureIds)}))`),
    )
    .orderBy(asc(schema.work.id))
    .all();
  return new Map(rows.map((row) => [row.captureId ?? 0, { state: row.state, error: row.error }]));
}
