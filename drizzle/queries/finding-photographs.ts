import { asc, eq, sql } from "drizzle-orm";
import type { Original } from "#domain/capture/capture.ts";
import type { FindingPhotograph } from "#domain/condition/finding-photograph.ts";
import { type Queryable, schema } from "../client.ts";
import { groupBy } from "./group-by.ts";

const { findingPhotographs, findings, originals, surveys, users } = schema;

const SHOWN = {
  id: findingPhotographs.id,
  findingId: findingPhotographs.findingId,
  originalId: findingPhotographs.originalId,
  caption: findingPhotographs.caption,
  name: originals.originalName,
  widthPx: originals.widthPx,
  heightPx: originals.heightPx,
  takenAt: originals.capturedAt,
  addedAt: findingPhotographs.createdAt,
  who: users.name,
};

/** The photographs of every finding of a print, by finding, in the order added. */
export function photographsOfPrint(db: Queryable, printId: number): Map<number, FindingPhotograph[]> {
  const rows = db
    .select(SHOWN)
    .from(findingPhotographs)
    .innerJoin(findings, eq(findings.id, findingPhotographs.findingId))
    .innerJoin(surveys, eq(surveys.id, findings.surveyId))
    .innerJoin(originals, eq(originals.id, findingPhotographs.originalId))
    .leftJoin(users, eq(users.id, findingPhotographs.userId))
    .where(eq(surveys.printId, printId))
    .orderBy(asc(findingPhotographs.id))
    .all();
  return groupBy(rows, (row) => row.findingId);
}

/** A finding as far as its photographs need it: what it is and whose. */
export function findFinding(db: Queryable, findingId: number) {
  return (
    db
      .select({
        id: findings.id,
        term: findings.term,
        side: findings.side,
        severity: findings.severity,
        surveyId: findings.surveyId,
        surveyedOn: surveys.surveyedOn,
        printId: surveys.printId,
      })
      .from(findings)
      .innerJoin(surveys, eq(surveys.id, findings.surveyId))
      .where(eq(findings.id, findingId))
      .get() ?? null
  );
}

/** One photograph with its file. */
export function findPhotograph(
  db: Queryable,
  id: number,
): { findingId: number; printId: number; caption: string | null; original: Original } | null {
  return (
    db
      .select({
        findingId: findingPhotographs.findingId,
        printId: surveys.printId,
        caption: findingPhotographs.caption,
        original: originals,
      })
      .from(findingPhotographs)
      .innerJoin(findings, eq(findings.id, findingPhotographs.findingId))
      .innerJoin(surveys, eq(surveys.id, findings.surveyId))
      .innerJoin(originals, eq(originals.id, findingPhotographs.originalId))
      .where(eq(findingPhotographs.id, id))
      .get() ?? null
  );
}

export function countPhotographs(db: Queryable, findingId: number): number {
  return db.select({ n: sql<number>`count(*)` }).from(findingPhotographs).where(eq(findingPhotographs.findingId, findingId)).get()?.n ?? 0;
}

/** Null where the finding has this file already. */
export function insertPhotograph(db: Queryable, photograph: typeof findingPhotographs.$inferInsert): number | null {
  return db.insert(findingPhotographs).values(photograph).onConflictDoNothing().returning({ id: findingPhotographs.id }).get()?.id ?? null;
}

/** Takes the photograph from its finding; the file stays among the originals. */
export function deletePhotograph(db: Queryable, id: number): void {
  db.delete(findingPhotographs).where(eq(findingPhotographs.id, id)).run();
}
