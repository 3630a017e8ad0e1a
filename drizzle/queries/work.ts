import { and, asc, eq, inArray, lt, ne, sql } from "drizzle-orm";
import type { Side } from "#domain/capture/capture.ts";
import { type Queryable, schema } from "../client.ts";
import { STANDS } from "./standing-captures.ts";

export type Work =
  | { readonly id: number; readonly kind: "measure"; readonly captureId: number; readonly attempts: number }
  | { readonly id: number; readonly kind: "compare"; readonly printId: number; readonly side: Side; readonly attempts: number };

/** A row found running whose program died is tried again this often before it counts as the cause. */
const MOST_LOST_ATTEMPTS = 5;

/**
 * Asks for a capture to be measured. Its earlier finished, failed or cancelled row makes way; one
 * that waits or runs stays, and the queue notices a changed context when the running one ends.
 */
export function enqueueMeasure(db: Queryable, captureId: number): void {
  db.delete(schema.work)
    .where(
      and(
        eq(schema.work.kind, "measure"),
        eq(schema.work.captureId, captureId),
        inArray(schema.work.state, ["done", "failed", "cancelled"]),
      ),
    )
    .run();
  db.insert(schema.work).values({ kind: "measure", captureId }).onConflictDoNothing().run();
}

/** Asks for the captures of one side of a print to be compared. One waiting row is enough. */
export function enqueueCompare(db: Queryable, printId: number, side: Side): void {
  db.delete(schema.work)
    .where(
      and(
        eq(schema.work.kind, "compare"),
        eq(schema.work.printId, printId),
        eq(schema.work.side, side),
        inArray(schema.work.state, ["done", "failed", "cancelled"]),
      ),
    )
    .run();
  db.insert(schema.work).values({ kind: "compare", printId, side }).onConflictDoNothing().run();
}

/** Measures a print's captures anew, because its size or its captures changed. */
export function remeasurePrint(db: Queryable, printId: number): void {
  const captures = db
    .select({ id: schema.captures.id })
    .from(schema.captures)
    .where(and(eq(schema.captures.printId, printId), STANDS))
    .all();
  for (const capture of captures) enqueueMeasure(db, capture.id);
}

/**
 * Takes the next waiting row, least often tried first, so that a row that keeps failing never
 * stands before others. A comparison waits until no capture of its side is open, and then goes first,
 * so that a print is settled as soon as it can be.
 */
export function claimWork(db: Queryable, now: string, leaseUntil: string): Work | null {
  const openMeasureOfSameSide = sql`exists (
    select 1 from work as other join captures on captures.id = other.capture_id
    where other.kind = 'measure' and other.state in ('waiting', 'running')
      and captures.print_id = ${schema.work.printId} and captures.side = ${schema.work.side})`;
  const next = db
    .select({ id: schema.work.id })
    .from(schema.work)
    .where(and(eq(schema.work.state, "waiting"), sql`not (${schema.work.kind} = 'compare' and ${openMeasureOfSameSide})`))
    .orderBy(asc(schema.work.attempts), asc(schema.work.kind), asc(schema.work.id))
    .limit(1);
  const row = db
    .update(schema.work)
    .set({ state: "running", startedAt: now, leaseUntil, error: null, attempts: sql`${schema.work.attempts} + 1` })
    .where(eq(schema.work.id, next))
    .returning()
    .get();
  if (!row) return null;
  if (row.kind === "measure" && row.captureId !== null)
    return { id: row.id, kind: "measure", captureId: row.captureId, attempts: row.attempts };
  if (row.printId !== null && row.side !== null)
    return { id: row.id, kind: "compare", printId: row.printId, side: row.side, attempts: row.attempts };
  throw new Error(`work row ${row.id} has no subject`);
}

/** True while the row still belongs to the claim: not taken over after its lease ran out. */
export function holdsWork(db: Queryable, work: Work): boolean {
  const row = db
    .select({ attempts: schema.work.attempts })
    .from(schema.work)
    .where(and(eq(schema.work.id, work.id), eq(schema.work.state, "running")))
    .get();
  return row?.attempts === work.attempts;
}

export function renewLease(db: Queryable, workId: number, leaseUntil: string): void {
  db.update(schema.work)
    .set({ leaseUntil })
    .where(and(eq(schema.work.id, workId), eq(schema.work.state, "running")))
    .run();
}

/** Ends a row that still belongs to the claim; one that failed, waits again or was taken over stays as it is. */
export function finishWork(db: Queryable, work: Work, now: string): void {
  db.update(schema.work)
    .set({ state: "done", finishedAt: now, leaseUntil: null })
    .where(and(eq(schema.work.id, work.id), eq(schema.work.state, "running"), eq(schema.work.attempts, work.attempts)))
    .run();
}

/** @param error in words for the keeper: what happened and what to do */
export function failWork(db: Queryable, workId: number, error: string, now: string): void {
  db.update(schema.work).set({ state: "failed", error, finishedAt: now, leaseUntil: null }).where(eq(schema.work.id, workId)).run();
}

/** Puts a running row back; a comparison that already waits anew takes its place. */
export function returnWork(db: Queryable, workId: number): void {
  const row = db.select().from(schema.work).where(eq(schema.work.id, workId)).get();
  if (row?.state !== "running") return;
  const waits =
    row.kind === "compare" && row.printId !== null && row.side !== null
      ? db
          .select({ id: schema.work.id })
          .from(schema.work)
          .where(
            and(
              eq(schema.work.kind, "compare"),
              eq(schema.work.printId, row.printId),
              eq(schema.work.side, row.side),
              eq(schema.work.state, "waiting"),
            ),
          )
          .get()
      : undefined;
  if (waits) db.delete(schema.work).where(eq(schema.work.id, workId)).run();
  else db.update(schema.work).set({ state: "waiting", leaseUntil: null }).where(eq(schema.work.id, workId)).run();
}

/** Puts a running row back because the keeper stopped the program: that attempt does not count. */
export function letGoOfWork(db: Queryable, workId: number): void {
  db.update(schema.work)
    .set({ attempts: sql`max(0, ${schema.work.attempts} - 1)` })
    .where(and(eq(schema.work.id, workId), eq(schema.work.state, "running")))
    .run();
  returnWork(db, workId);
}

/** Takes back rows whose program died. Returns how many wait again. */
export function releaseExpired(db: Queryable, now: string): number {
  const lost = db
    .select({ id: schema.work.id, attempts: schema.work.attempts })
    .from(schema.work)
    .where(and(eq(schema.work.state, "running"), lt(schema.work.leaseUntil, now)))
    .all();
  for (const row of lost) {
    if (row.attempts < MOST_LOST_ATTEMPTS) returnWork(db, row.id);
    else
      failWork(
        db,
        row.id,
        `The program stopped ${row.attempts} times while it worked on this, so it is left out. Measure it again on a machine with more memory, or take in a smaller file.`,
        now,
      );
  }
  return lost.length;
}

/** Waiting rows stop waiting; those that run go on to their end. Returns how many. */
export function cancelWaiting(db: Queryable, now: string): number {
  return db.update(schema.work).set({ state: "cancelled", finishedAt: now }).where(eq(schema.work.state, "waiting")).run().changes;
}

export function resumeCancelled(db: Queryable): number {
  const openTwin = sql`exists (
    select 1 from work as other where other.id <> ${schema.work.id} and other.kind = ${schema.work.kind} and (
      (other.kind = 'measure' and other.capture_id = ${schema.work.captureId} and other.state in ('waiting', 'running')) or
      (other.kind = 'compare' and other.print_id = ${schema.work.printId} and other.side = ${schema.work.side} and other.state = 'waiting')))`;
  return db
    .update(schema.work)
    .set({ state: "waiting", finishedAt: null })
    .where(and(eq(schema.work.state, "cancelled"), sql`not ${openTwin}`))
    .run().changes;
}

/** Asks anew for everything that failed. Returns how many pieces. */
export function retryFailed(db: Queryable): number {
  const failed = db.select().from(schema.work).where(eq(schema.work.state, "failed")).all();
  for (const { captureId, printId, side } of failed) {
    if (captureId !== null) enqueueMeasure(db, captureId);
    else if (printId !== null && side !== null) enqueueCompare(db, printId, side);
  }
  return failed.length;
}

/** Drops what was asked of a capture that is not to be measured any more; a running row ends by itself. */
export function forgetMeasure(db: Queryable, captureId: number): void {
  db.delete(schema.work)
    .where(and(eq(schema.work.kind, "measure"), eq(schema.work.captureId, captureId), ne(schema.work.state, "running")))
    .run();
}
