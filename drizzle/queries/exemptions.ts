import { and, desc, eq, isNull, sql } from "drizzle-orm";
import type { Side } from "#domain/capture/capture.ts";
import { type Queryable, schema } from "../client.ts";
import { EXEMPTION_HOLDS } from "./needs-recapture.ts";

const { originals, captures, prints, recaptureExemptions, users } = schema;

/** A side that a person said is good enough, or need not be captured. */
export type Exemption = {
  readonly id: number;
  readonly printId: number;
  readonly side: Side;
  readonly purposeId: number;
  readonly captureId: number | null;
  readonly reason: string;
  readonly createdAt: string;
};
export type NewExemption = typeof recaptureExemptions.$inferInsert;

const KEPT = {
  id: recaptureExemptions.id,
  printId: recaptureExemptions.printId,
  side: recaptureExemptions.side,
  purposeId: recaptureExemptions.purposeId,
  captureId: recaptureExemptions.captureId,
  reason: recaptureExemptions.reason,
  createdAt: recaptureExemptions.createdAt,
};

const holds = sql`exists (select 1 from recapture_exemptions e where e.id = ${recaptureExemptions.id} and ${EXEMPTION_HOLDS})`;

/** What holds for some prints now. */
export function standingExemptions(db: Queryable, printIds: readonly number[]): Exemption[] {
  return db
    .select(KEPT)
    .from(recaptureExemptions)
    .where(and(holds, sql`${recaptureExemptions.printId} in (select value from json_each(${JSON.stringify(printIds)}))`))
    .all();
}

/** Whether it was said of this side for this purpose. Without a capture it holds for every purpose. */
export const isSaidOf = (said: Exemption, of: Pick<Exemption, "printId" | "side" | "purposeId">): boolean =>
  said.printId === of.printId && said.side === of.side && (said.captureId === null || said.purposeId === of.purposeId);

export type ExemptionListed = Exemption & {
  readonly objectNumber: string;
  readonly title: string;
  readonly who: string | null;
  readonly fileName: string | null;
};

/** What holds for a purpose, the newest first. Without a capture it holds for every purpose. */
export function exemptionsOfPurpose(db: Queryable, purposeId: number): ExemptionListed[] {
  return db
    .select({ ...KEPT, objectNumber: prints.objectNumber, title: prints.title, who: users.name, fileName: originals.originalName })
    .from(recaptureExemptions)
    .innerJoin(prints, eq(prints.id, recaptureExemptions.printId))
    .leftJoin(users, eq(users.id, recaptureExemptions.userId))
    .leftJoin(captures, eq(captures.id, recaptureExemptions.captureId))
    .leftJoin(originals, eq(originals.id, captures.originalId))
    .where(
      and(
        holds,
        isNull(prints.binnedAt),
        sql`(${recaptureExemptions.captureId} is null or ${recaptureExemptions.purposeId} = ${purposeId})`,
      ),
    )
    .orderBy(desc(recaptureExemptions.id))
    .all();
}

export function findExemption(db: Queryable, id: number): (Exemption & { readonly takenBackAt: string | null }) | null {
  const row = db
    .select({ ...KEPT, takenBackAt: recaptureExemptions.takenBackAt })
    .from(recaptureExemptions)
    .where(eq(recaptureExemptions.id, id))
    .get();
  return row ?? null;
}

export function insertExemption(db: Queryable, exemption: NewExemption): number {
  return db.insert(recaptureExemptions).values(exemption).returning({ id: recaptureExemptions.id }).get().id;
}

export function setExemptionTakenBack(db: Queryable, id: number, takenBackAt: string): void {
  db.update(recaptureExemptions).set({ takenBackAt }).where(eq(recaptureExemptions.id, id)).run();
}
