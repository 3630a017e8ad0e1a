import type { AimLimit, Purpose } from "#domain/aim/aim.ts";
import type { Queryable } from "#drizzle/client.ts";
import { insertAim } from "#drizzle/queries/aims.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import type { Context } from "../context.ts";

type Kept = {
  readonly version: number;
  readonly asks: string;
  readonly edition: string;
  readonly note: string | null;
  readonly limits: readonly AimLimit[];
};

/** Keeps a keeper's version of an aim, with its line of history. Call it in a transaction. */
export function keepAim(
  tx: Queryable,
  context: Pick<Context, "now" | "userId">,
  purpose: Purpose,
  { version, asks, edition, note, limits }: Kept,
): void {
  const aimId = insertAim(tx, purpose.id, { name: asks, version, edition, note, userId: context.userId, limits });
  recordEvent(tx, {
    at: context.now(),
    userId: context.userId,
    verb: "created",
    subject: "aim",
    subjectId: aimId,
    detail: { purpose: purpose.key, edition, version, note },
  });
}
