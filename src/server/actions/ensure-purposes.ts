import { isDeepStrictEqual } from "node:util";
import type { Aim } from "#domain/aim/aim.ts";
import { PUBLISHED_AIMS, type PublishedAim } from "#domain/aim/published.ts";
import type { Queryable } from "#drizzle/client.ts";
import { currentAims, findPurpose, insertAim, insertPurpose } from "#drizzle/queries/aims.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import type { Context } from "../context.ts";

/**
 * Gives a collection the purposes and ready-made aims that it does not have yet. An aim that reads otherwise than when the
 * collection got it becomes a new version of it; the old one stays, and choices point at the version they were made with until
 * masters are chosen anew.
 * @param published what the program comes with; replaced in tests
 */
export function ensurePurposes(context: Pick<Context, "db" | "now" | "userId">, published: readonly PublishedAim[] = PUBLISHED_AIMS): void {
  if (published.every((aim) => isKept(context.db, aim))) return;
  context.db.transaction((tx) => {
    for (const [index, aim] of published.entries()) if (!isKept(tx, aim)) keep(tx, context, aim, index + 1);
  });
}

const isKept = (db: Queryable, aim: PublishedAim): boolean => {
  const held = heldFor(db, aim);
  return held !== null && held.name === aim.name && held.edition === aim.edition && isDeepStrictEqual(held.limits, aim.limits);
};

const heldFor = (db: Queryable, { purpose }: PublishedAim): Aim | null =>
  currentAims(db).find((aim) => aim.purpose.key === purpose.key) ?? null;

function keep(tx: Queryable, context: Pick<Context, "now" | "userId">, { purpose, ...aim }: PublishedAim, position: number): void {
  const held = heldFor(tx, { purpose, ...aim });
  const kept = findPurpose(tx, purpose.key) ?? insertPurpose(tx, { ...purpose, position });
  const version = (held?.version ?? 0) + 1;
  const aimId = insertAim(tx, kept.id, { ...aim, version });
  recordEvent(tx, {
    at: context.now(),
    userId: context.userId,
    verb: "created",
    subject: "aim",
    subjectId: aimId,
    detail: { purpose: purpose.key, edition: aim.edition, version, takesThePlaceOf: held?.id ?? null },
  });
}
