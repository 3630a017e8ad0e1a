import { and, asc, desc, eq, isNull, max, sql } from "drizzle-orm";
import type { Aim, AimLimit, Purpose } from "#domain/aim/aim.ts";
import { type Queryable, schema } from "../client.ts";

const { aimLimits, aims, purposes, users } = schema;

export type NewAim = Omit<Aim, "id" | "purpose"> & { readonly note?: string | null; readonly userId?: number | null };

/** A version of an aim without its limits: when it was laid down, by whom and why. */
export type AimVersion = Pick<Aim, "id" | "name" | "version" | "edition"> & {
  readonly note: string | null;
  /** null: it came with the program */
  readonly who: string | null;
  readonly createdAt: string;
};

export type PurposeInUse = Purpose & { readonly isAside: boolean };

/** The purposes that masters are chosen for, in their order. */
export function listPurposes(db: Queryable): Purpose[] {
  return db.select(PURPOSE).from(purposes).where(isNull(purposes.setAsideAt)).orderBy(asc(purposes.position)).all();
}

/** All of them, those set aside included. */
export function listAllPurposes(db: Queryable): PurposeInUse[] {
  return db
    .select({ ...PURPOSE, isAside: sql<number>`${purposes.setAsideAt} is not null` })
    .from(purposes)
    .orderBy(asc(purposes.position))
    .all()
    .map((purpose) => ({ ...purpose, isAside: purpose.isAside === 1 }));
}

export function findPurpose(db: Queryable, key: string): Purpose | null {
  return db.select(PURPOSE).from(purposes).where(eq(purposes.key, key)).get() ?? null;
}

/** The aim that holds now for each purpose in use, in the order of the purposes. */
export function currentAims(db: Queryable): Aim[] {
  return whole(
    db,
    query(db)
      .where(and(eq(aims.current, true), isNull(purposes.setAsideAt)))
      .orderBy(asc(purposes.position))
      .all(),
  );
}

/** One version of the aim of a purpose, or the one that holds now; null where there is none. */
export function findAim(db: Queryable, purposeKey: string, version: number | null = null): Aim | null {
  const isMeant = version === null ? eq(aims.current, true) : eq(aims.version, version);
  return (
    whole(
      db,
      query(db)
        .where(and(eq(purposes.key, purposeKey), isMeant))
        .all(),
    )[0] ?? null
  );
}

/** Every version of the aim of a purpose, newest first. */
export function listAimVersions(db: Queryable, purposeId: number): AimVersion[] {
  return db
    .select({
      id: aims.id,
      name: aims.name,
      version: aims.version,
      edition: aims.edition,
      note: aims.note,
      who: users.name,
      createdAt: aims.createdAt,
    })
    .from(aims)
    .leftJoin(users, eq(users.id, aims.userId))
    .where(eq(aims.purposeId, purposeId))
    .orderBy(desc(aims.version))
    .all();
}

export function insertPurpose(db: Queryable, purpose: Omit<Purpose, "id"> & { position?: number }): Purpose {
  const last =
    db
      .select({ position: max(purposes.position) })
      .from(purposes)
      .get()?.position ?? 0;
  return db
    .insert(purposes)
    .values({ ...purpose, position: purpose.position ?? last + 1 })
    .returning(PURPOSE)
    .get();
}

export function updatePurpose(db: Queryable, id: number, to: { name?: string; note?: string | null; setAsideAt?: string | null }): void {
  db.update(purposes).set(to).where(eq(purposes.id, id)).run();
}

/** Keeps a version of an aim and makes it the one that holds. Call it in a transaction. */
export function insertAim(db: Queryable, purposeId: number, aim: NewAim): number {
  db.update(aims)
    .set({ current: false })
    .where(and(eq(aims.purposeId, purposeId), eq(aims.current, true)))
    .run();
  const { id } = db
    .insert(aims)
    .values({
      purposeId,
      name: aim.name,
      version: aim.version,
      edition: aim.edition,
      note: aim.note ?? null,
      userId: aim.userId ?? null,
      current: true,
    })
    .returning({ id: aims.id })
    .get();
  for (const limit of aim.limits)
    db.insert(aimLimits)
      .values({ aimId: id, ...limit })
      .run();
  return id;
}

const query = (db: Queryable) =>
  db.select({ aim: aims, purpose: PURPOSE }).from(aims).innerJoin(purposes, eq(purposes.id, aims.purposeId)).$dynamic();

const whole = (db: Queryable, rows: readonly { aim: typeof aims.$inferSelect; purpose: Purpose }[]): Aim[] =>
  rows.map(({ aim: { id, name, version, edition }, purpose }) => ({ id, purpose, name, version, edition, limits: limitsOf(db, id) }));

const PURPOSE = { id: purposes.id, key: purposes.key, name: purposes.name, note: purposes.note };

function limitsOf(db: Queryable, aimId: number): AimLimit[] {
  const rows = db.select().from(aimLimits).where(eq(aimLimits.aimId, aimId)).orderBy(asc(aimLimits.id)).all();
  return rows.map(({ id: _, aimId: __, ...limit }) => limit);
}
