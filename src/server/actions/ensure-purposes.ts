import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import { currentAims, findPurpose, insertAim, insertPurpose } from "#drizzle/queries/aims.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import type { Context } from "../context.ts";

/** Gives a collection the purposes and ready-made aims that it does not have yet; what is there stays as it is. */
export function ensurePurposes(context: Pick<Context, "db" | "now" | "userId">): void {
  const missing = PUBLISHED_AIMS.filter(({ purpose }) => !currentAims(context.db).some((aim) => aim.purpose.key === purpose.key));
  if (missing.length === 0) return;
  context.db.transaction((tx) => {
    for (const { purpose, ...aim } of missing) {
      const position = PUBLISHED_AIMS.findIndex((published) => published.purpose.key === purpose.key) + 1;
      const kept = findPurpose(tx, purpose.key) ?? insertPurpose(tx, { ...purpose, position });
      const aimId = insertAim(tx, kept.id, aim);
      recordEvent(tx, {
        at: context.now(),
        userId: context.userId,
        verb: "created",
        subject: "aim",
        subjectId: aimId,
        detail: { purpose: purpose.key, edition: aim.edition },
      });
    }
  });
}
