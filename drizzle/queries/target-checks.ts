import { and, asc, desc, eq, isNotNull, isNull, lte, type SQL } from "drizzle-orm";
import type { Original } from "#domain/capture/capture.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { withEvenSheet } from "#domain/target/even-sheet.ts";
import { type KeptTargetRead, keptTargetRead } from "#domain/target/kept-read.ts";
import type { TargetLayout } from "#domain/target/layout.ts";
import { completedBy } from "#domain/target/standing-readings.ts";
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
 * before; what that one does not tell from the next best; evenness from the even sheet chosen the same way, where there is one.
 */
export function checkFor(db: Queryable, setUpId: number, day: string | null): TargetCheck | null {
  const ofSetUp = and(eq(targetChecks.setUpId, setUpId), isNotNull(targetChecks.read));
  const [target, ...others] = nearest(db, and(ofSetUp, isNotNull(targetChecks.layout)), day);
  const [sheet] = nearest(db, and(ofSetUp, isNull(targetChecks.layout)), day);
  if (!target) return sheet ?? null;
  const together = completedBy(target.read.readings, others.map(dated));
  const readings = withEvenSheet(together, sheet ? dated(sheet) : null);
  return { ...target, read: { ...target.read, readings } };
}

const dated = ({ takenOn, read }: TargetCheck) => ({ takenOn, readings: read.readings });

/** How many checks back a figure is looked for. */
const MOST_BACK = 20;

/** Those of a day or before it, the latest first; where there is none, those after, the first first. */
function nearest(db: Queryable, of: SQL | undefined, day: string | null): TargetCheck[] {
  const before =
    day === null
      ? []
      : query(db)
          .where(and(of, lte(targetChecks.takenOn, day)))
          .orderBy(desc(targetChecks.takenOn), desc(targetChecks.id))
          .limit(MOST_BACK)
          .all();
  const rows =
    before.length > 0 ? before : query(db).where(of).orderBy(asc(targetChecks.takenOn), asc(targetChecks.id)).limit(MOST_BACK).all();
  return rows.map(shape).flatMap((found) => (found.read ? [{ ...found, read: found.read }] : []));
}

/** What holds of a set-up now. */
export const latestCheck = (db: Queryable, setUpId: number): TargetCheck | null => checkFor(db, setUpId, LAST_DAY);

const LAST_DAY = "9999-12-31";

/** @throws where a figure is none: kept as JSON it would come back as null, and no page could tell it */
export function insertTargetCheck(db: Queryable, check: typeof targetChecks.$inferInsert): number {
  const read = keptTargetRead.nullish().parse(check.read);
  return db
    .insert(targetChecks)
    .values({ ...check, read })
    .returning({ id: targetChecks.id })
    .get().id;
}

/** What was read of it anew, with the corners that a person set. */
export function setCheckOutline(db: Queryable, id: number, saidOutline: Quad, read: KeptTargetRead): void {
  db.update(targetChecks).set({ saidOutline, read }).where(eq(targetChecks.id, id)).run();
}

/** The file stays among the originals. */
export function deleteTargetCheck(db: Queryable, id: number): void {
  db.delete(targetChecks).where(eq(targetChecks.id, id)).run();
}
