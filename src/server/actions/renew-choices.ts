import { setImmediate as others } from "node:timers/promises";
import { done, type Outcome } from "#domain/outcome.ts";
import { findPurpose } from "#drizzle/queries/aims.ts";
import { listPrintsChosenByOlderAims } from "#drizzle/queries/candidates.ts";
import type { Context } from "../context.ts";
import { chooseMasters } from "./choose-masters.ts";

/**
 * Chooses anew where the rule chose by an aim that has changed since, and for purposes that are new; other requests get their turn between
 * two prints.
 * @param of only for this purpose
 */
export async function renewChoices(context: Context, of: { purposeKey?: string } = {}): Promise<Outcome<{ prints: number }>> {
  const purposeId = of.purposeKey === undefined ? null : (findPurpose(context.db, of.purposeKey)?.id ?? null);
  const printIds = listPrintsChosenByOlderAims(context.db, purposeId);
  for (const printId of printIds) {
    if (context.ending.aborted) break;
    chooseMasters(context, { printIds: [printId], ...of });
    await others();
  }
  return done({ prints: printIds.length });
}
