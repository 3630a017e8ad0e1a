import { and, asc, eq } from "drizzle-orm";
import type { Aim, AimLimit, Purpose } from "#domain/aim/aim.ts";
import { type Queryable, schema } from "../client.ts";

const { aimLimits, aims, purposes } = schema;

export type NewAim = Omit<Aim, "id" | "purpose">;

export function listPurposes(db: Queryable): Purpose[] {
  return db.select(PURPOSE).from(purposes).orderBy(asc(purposes.position)).all();
}

export function findPurpose(db: Queryable, key: string): Purpose | null {
  return db.select(PURPOSE).from(purposes).where(eq(purposes.key, key)).get() ?? null;
}

/** The aim that holds now for each purpose, in the order of the purposes. */
export function currentAims(db: Queryable): Aim[] {
  const rows = db
    .select({ aim: aims, purpose: PURPOSE })
    .from(aims)
    .innerJoin(purposes, eq(purposes.id, aims.purposeId))
    .where(eq(aims.current, true))
    .orderBy(asc(purposes.position))
    .all();
  return rows.map(({ aim, purpose }) => ({
    id: aim.id,
    purpose,
    name: aim.name,
    version: aim.version,
    edition: aim.edition,
    limits: limitsOf(db, aim.id),
  }));
}

export function insertPurpose(db: Queryable, purpose: Omit<Purpose, "id"> & { position: number }): Purpose {
  return db.insert(purposes).values(purpose).returning(PURPOSE).get();
}

/** Keeps a version of an aim and makes it the one that holds. Call it in a transaction. */
export function insertAim(db: Queryable, purposeId: number, aim: NewAim): number {
  db.update(aims)
    .set({ current: false })
    .where(and(eq(aims.purposeId, purposeId), eq(aims.current, true)))
    .run();
  const { id } = db
    .insert(aims)
    .values({ purposeId, name: aim.name, version: aim.version, edition: aim.edition, current: true })
    .returning({ id: aims.id })
    .get();
  for (const limit of aim.limits)
    db.insert(aimLimits)
      .values({ aimId: id, ...limit })
      .run();
  return id;
}

const PURPOSE = { id: purposes.id, key: purposes.key, name: purposes.name, note: purposes.note };

function limitsOf(db: Queryable, aimId: number): AimLimit[] {
  const rows = db.select().from(aimLimits).where(eq(aimLimits.aimId, aimId)).orderBy(asc(aimLimits.id)).all();
  return rows.map(({ id: _, aimId: __, ...limit }) => limit);
}
