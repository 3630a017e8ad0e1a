import { and, asc, count, desc, eq, min, ne, notExists, sql } from "drizzle-orm";
import type { Refusal } from "#domain/outcome.ts";
import { type Queryable, schema } from "../client.ts";

export type FixityOutcome = "unchanged" | "changed" | "missing" | "unreadable";

export type FixityCheck = {
  readonly originalId: number;
  readonly checkedAt: string;
  readonly outcome: FixityOutcome;
  readonly foundSha256: string | null;
};

/** A check of all originals, and how far it is. */
export type FixityRun = {
  readonly id: number;
  readonly startedAt: string;
  /** null: it runs, or was stopped */
  readonly endedAt: string | null;
  readonly checked: number;
  readonly strays: readonly Refusal[];
};

/** A damaged file, with one of the captures that it holds, or the print of the finding that it is a photograph of. */
export type DamagedOriginal = FixityCheck & {
  readonly name: string;
  readonly captureId: number | null;
  readonly printId: number | null;
  readonly outcome: Damage;
};

export type Damage = Exclude<FixityOutcome, "unchanged">;

/** @param check.runId the check of all originals it belongs to; none where one file was looked at by itself */
export function insertFixityCheck(db: Queryable, check: FixityCheck & { readonly runId?: number }): void {
  db.insert(schema.fixityChecks).values(check).run();
}

/** Every look at one original, newest first. */
export function fixityOfOriginal(db: Queryable, originalId: number, most = 50): FixityCheck[] {
  return db
    .select()
    .from(schema.fixityChecks)
    .where(eq(schema.fixityChecks.originalId, originalId))
    .orderBy(desc(schema.fixityChecks.id))
    .limit(most)
    .all();
}

const isLatest = sql`${schema.fixityChecks.id} = (select max(id) from fixity_checks as other where other.original_id = ${schema.fixityChecks.originalId})`;

/** Originals whose last check found them not to be what was taken in. */
export function damageOfOriginals(db: Queryable, originalIds: readonly number[]): Map<number, Damage> {
  const rows = db
    .select({ originalId: schema.fixityChecks.originalId, outcome: schema.fixityChecks.outcome })
    .from(schema.fixityChecks)
    .where(
      and(
        sql`${schema.fixityChecks.originalId} in (select value from json_each(${JSON.stringify(originalIds)}))`,
        ne(schema.fixityChecks.outcome, "unchanged"),
        isLatest,
      ),
    )
    .all();
  return new Map(rows.map(({ originalId, outcome }) => [originalId, outcome as Damage]));
}

/** Every original that was last found damaged, by name. */
export function listDamagedOriginals(db: Queryable): DamagedOriginal[] {
  const { fixityChecks, originals } = schema;
  return db
    .select({ check: fixityChecks, name: originals.originalName, captureId: min(schema.captures.id), printId: PRINT_OF_PHOTOGRAPH })
    .from(fixityChecks)
    .innerJoin(originals, eq(originals.id, fixityChecks.originalId))
    .leftJoin(schema.captures, eq(schema.captures.originalId, originals.id))
    .where(and(ne(fixityChecks.outcome, "unchanged"), isLatest))
    .groupBy(fixityChecks.id)
    .orderBy(asc(originals.originalName))
    .all()
    .map(({ check, ...of }) => ({ ...check, outcome: check.outcome as Damage, ...of }));
}

const PRINT_OF_PHOTOGRAPH = sql<number | null>`(
  select s.print_id from finding_photographs p join findings f on f.id = p.finding_id join surveys s on s.id = f.survey_id
  where p.original_id = "originals"."id" limit 1)`;

export function startFixityRun(db: Queryable, startedAt: string): number {
  return db.insert(schema.fixityRuns).values({ startedAt }).returning({ id: schema.fixityRuns.id }).get().id;
}

export function endFixityRun(db: Queryable, runId: number, ended: { endedAt: string; strays: Refusal[] }): void {
  db.update(schema.fixityRuns).set(ended).where(eq(schema.fixityRuns.id, runId)).run();
}

export function latestFixityRun(db: Queryable): FixityRun | null {
  const run = db.select().from(schema.fixityRuns).orderBy(desc(schema.fixityRuns.id)).limit(1).get();
  if (!run) return null;
  const checked = db.select({ n: count() }).from(schema.fixityChecks).where(eq(schema.fixityChecks.runId, run.id)).get();
  return { ...run, checked: checked?.n ?? 0 };
}

/** The originals that a run has not looked at yet, in the order in which they were taken in. */
export function listUncheckedOriginals(db: Queryable, runId: number) {
  const { fixityChecks, originals } = schema;
  const looked = db
    .select({ one: sql`1` })
    .from(fixityChecks)
    .where(and(eq(fixityChecks.runId, runId), eq(fixityChecks.originalId, originals.id)));
  return db
    .select({ id: originals.id, sha256: originals.sha256, originalName: originals.originalName })
    .from(originals)
    .where(notExists(looked))
    .orderBy(asc(originals.id))
    .all();
}

/** The prints that an original is a capture of: one, or several where it is a bed. */
export function listPrintsOfOriginal(db: Queryable, originalId: number): number[] {
  return db
    .selectDistinct({ printId: schema.captures.printId })
    .from(schema.captures)
    .where(eq(schema.captures.originalId, originalId))
    .all()
    .flatMap(({ printId }) => (printId === null ? [] : [printId]));
}
