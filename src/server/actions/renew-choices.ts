import { setImmediate as others } from "node:timers/promises";
import { done, type Outcome } from "#domain/outcome.ts";
import { listPrintsChosenByOlderAims } from "#drizzle/queries/candidates.ts";
import type { Context } from "../context.ts";
import { chooseMasters } from "./choose-masters.ts";

/** Chooses anew where the rule chose by an aim that has changed since; other requests get their turn between two prints. */
export async function renewChoices(context: Context): Promise<Outcome<{ prints: number }>> {
  const printIds = listPrintsChosenByOlderAims(context.db);
  for (const printId of printIds) {
    chooseMasters(context, { printIds: [printId] });
    await others();
  }
  return done({ prints: printIds.length });
}
