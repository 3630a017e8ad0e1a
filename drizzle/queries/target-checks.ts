import { and, asc, desc, eq, isNotNull, isNull, lte, type SQL } from "drizzle-orm";
import type { Original } from "#domain/capture/capture.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { withEvenSheet } from "#domain/target/even-sheet.ts";
import type { KeptTargetRead } from "#domain/target/kept-read.ts";
import type { TargetLayout } from "#domain/target/layout.ts";
import { type Queryable, schema } from "../client.ts";

const { originals, targetChecks, users } = schema;

/** One picture of a target, or of an even sheet, that is kept with a set-up. */
export type KeptCheck = {
  readonly id: number;
  readonly setUpId: number;
  readonly takenOn: string;
  /** null for a plain sheet that fills the frame */
  readonly layout: TargetLayout | null;
  readonly reference: string | null;
  readonly referenceName: string | null;
  /** corners that a person set; null where they were looked for */
  readonly saidOutline: Quad | null;
  /** null where the target was not found and nobody has set its corners */
  readonly read: KeptTargetRead | null;
  readonly note: string | null;
  readonly original: Original;
  readonly who: string | null;
  readonly createdAt: string;
};

/** One that was read. */
export type TargetCheck = KeptCheck & { readonly read: KeptTargetRead };

const query = (db: Queryable) =>
  db
    .select({ check: targetChecks, original: originals, who: users.name })
    .from(targetChecks)
    .innerJoin(originals, eq(originals.id, targetChecks.originalId))
    .leftJoin(users, eq(users.id, targetChecks.userId));

type Row = { check: typeof targetChecks.$inferSelect; original: Original; who: string | null };

const shape = ({ check, original, who }: Row): KeptCheck => {
  const { id, setUpId, takenOn, layout, reference, referenceName, saidOutline, read, note, createdAt } = check;
  return { id, setUpId, takenOn, layout, reference, referenceName, saidOutline, read, note, createdAt, original, who };
};

/** Every check of a set-up, the oldest first, those that wait for their corners too. */
export const listTargetChecks = (db: Queryable, setUpId: number): KeptCheck[] =>
  query(db).where(eq(targetChecks.setUpId, setUpId)).orderBy(asc(targetChecks.takenOn), asc(targetChecks.id)).all().map(shape);

export function findTargetCheck(db: Queryable, id: number): KeptCheck | null {
  const row = query(db).where(eq(targetChecks.id, id)).get();
  return row ? shape(row) : null;
}

/**
 * What speaks for a capture: the latest check of its set-up on a target on its day or before, the first one after where there is none
 * before; evenness from the even sheet chosen the same way, where there is one.
 */
export function checkFor(db: Queryable, setUpId: number, day: string | null): TargetCheck | null {
  const ofSetUp = and(eq(targetChecks.setUpId, setUpId), isNotNull(targetChecks.read));
  const target = nearest(db, and(ofSetUp, isNotNull(targetChecks.layout)), day);
  const sheet = nearest(db, and(ofSetUp, isNull(targetChecks.layout)), day);
  if (!target || !sheet) return target ?? sheet;
  const readings = withEvenSheet(target.read.readings, { takenOn: sheet.takenOn, readings: sheet.read.readings });
  return { ...target, read: { ...target.read, readings } };
}

function nearest(db: Queryable, of: SQL | undefined, day: string | null): TargetCheck | null {
  const before =
    day === null
      ? undefined
      : query(db)
          .where(and(of, lte(targetChecks.takenOn, day)))
          .orderBy(desc(targetChecks.takenOn), desc(targetChecks.id))
          .get();
  const row = before ?? query(db).where(of).orderBy(asc(targetChecks.takenOn), asc(targetChecks.id)).get();
  const found = row && shape(row);
  return found?.read ? { ...found, read: found.read } : null;
}

/** What holds of a set-up now. */
export const latestCheck = (db: Queryable, setUpId: number): TargetCheck | null => checkFor(db, setUpId, LAST_DAY);

const LAST_DAY = "9999-12-31";

export function insertTargetCheck(db: Queryable, check: typeof targetChecks.$inferInsert): number {
  return db.insert(targetChecks).values(check).returning({ id: targetChecks.id }).get().id;
}

/** What was read of it anew, with the corners that a person set. */
export function setCheckOutline(db: Queryable, id: number, saidOutline: Quad, read: KeptTargetRead): void {
  db.update(targetChecks).set({ saidOutline, read }).where(eq(targetChecks.id, id)).run();
}

/** The file stays among the originals. */
export function deleteTargetCheck(db: Queryable, id: number): void {
  db.delete(targetChecks).where(eq(targetChecks.id, id)).run();
}
