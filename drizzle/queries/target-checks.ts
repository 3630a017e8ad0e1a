import { and, asc, desc, eq, isNotNull, isNull, lte, type SQL } from "drizzle-orm";
import type { Original } from "#domain/capture/capture.ts";
import { withEvenSheet } from "#domain/target/even-sheet.ts";
import type { KeptTargetRead } from "#domain/target/kept-read.ts";
import type { TargetLayout } from "#domain/target/layout.ts";
import { type Queryable, schema } from "../client.ts";

const { originals, targetChecks, users } = schema;

/** One check of a set-up on a target. */
export type TargetCheck = {
  readonly id: number;
  readonly setUpId: number;
  readonly takenOn: string;
  /** null for a plain sheet that fills the frame */
  readonly layout: TargetLayout | null;
  readonly referenceName: string | null;
  readonly read: KeptTargetRead;
  readonly note: string | null;
  readonly original: Original;
  readonly who: string | null;
  readonly createdAt: string;
};

const query = (db: Queryable) =>
  db
    .select({ check: targetChecks, original: originals, who: users.name })
    .from(targetChecks)
    .innerJoin(originals, eq(originals.id, targetChecks.originalId))
    .leftJoin(users, eq(users.id, targetChecks.userId));

type Row = { check: typeof targetChecks.$inferSelect; original: Original; who: string | null };

const shape = ({ check, original, who }: Row): TargetCheck => {
  const { id, setUpId, takenOn, layout, referenceName, read, note, createdAt } = check;
  return { id, setUpId, takenOn, layout, referenceName, read, note, createdAt, original, who };
};

/** Every check of a set-up, the oldest first. */
export const listTargetChecks = (db: Queryable, setUpId: number): TargetCheck[] =>
  query(db).where(eq(targetChecks.setUpId, setUpId)).orderBy(asc(targetChecks.takenOn), asc(targetChecks.id)).all().map(shape);

export function findTargetCheck(db: Queryable, id: number): TargetCheck | null {
  const row = query(db).where(eq(targetChecks.id, id)).get();
  return row ? shape(row) : null;
}

/**
 * What speaks for a capture: the latest check of its set-up on a target on its day or before, the first one after where there is none
 * before; evenness from the even sheet chosen the same way, where there is one.
 */
export function checkFor(db: Queryable, setUpId: number, day: string | null): TargetCheck | null {
  const target = nearest(db, and(eq(targetChecks.setUpId, setUpId), isNotNull(targetChecks.layout)), day);
  const sheet = nearest(db, and(eq(targetChecks.setUpId, setUpId), isNull(targetChecks.layout)), day);
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
  return row ? shape(row) : null;
}

/** What holds of a set-up now. */
export const latestCheck = (db: Queryable, setUpId: number): TargetCheck | null => checkFor(db, setUpId, LAST_DAY);

const LAST_DAY = "9999-12-31";

export function insertTargetCheck(db: Queryable, check: typeof targetChecks.$inferInsert): number {
  return db.insert(targetChecks).values(check).returning({ id: targetChecks.id }).get().id;
}

/** The file stays among the originals. */
export function deleteTargetCheck(db: Queryable, id: number): void {
  db.delete(targetChecks).where(eq(targetChecks.id, id)).run();
}
