import { setImmediate as others } from "node:timers/promises";
import type { AimLimit, Purpose } from "#domain/aim/aim.ts";
import { SIDES, type Side } from "#domain/capture/capture.ts";
import { masterByRule } from "#domain/master/rule.ts";
import { leanCandidates, listPrintsToChooseFor } from "#drizzle/queries/candidates.ts";
import { listCapturesOfPrint } from "#drizzle/queries/captures.ts";
import { currentMasters } from "#drizzle/queries/choices.ts";
import { groupBy } from "#drizzle/queries/group-by.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import type { Context } from "../context.ts";

/** A master that would be another one, or none, by other limits. */
export type WouldChange = {
  readonly printId: number;
  readonly objectNumber: string;
  readonly title: string;
  readonly side: Side;
  /** file names; null: no capture is good enough */
  readonly before: string | null;
  readonly after: string | null;
};

export type Changes = {
  /** sides of prints that were looked at */
  readonly sides: number;
  readonly another: number;
  readonly lost: number;
  readonly gained: number;
  /** chosen by hand: they stand whatever the aim says */
  readonly byHand: number;
  /** the first of them, in the order of their numbers */
  readonly first: readonly WouldChange[];
};

const MOST_NAMED = 40;
/** Prints read at once: other requests get their turn in between. */
const AT_ONCE = 200;

/** Which masters of a purpose would be others by these limits. Nothing is written. */
export async function whatWouldChange(context: Context, purpose: Purpose, limits: readonly AimLimit[]): Promise<Changes> {
  const { db, ending } = context;
  const masters = currentMasters(db, purpose.id);
  const measures = limits.map(({ measure }) => measure);
  const printIds = listPrintsToChooseFor(db);
  const counts = { sides: 0, another: 0, lost: 0, gained: 0, byHand: 0 };
  const first: { printId: number; side: Side; before: number | null; after: number | null }[] = [];
  for (let from = 0; from < printIds.length && !ending.aborted; from += AT_ONCE) {
    const some = printIds.slice(from, from + AT_ONCE);
    const byPrint = groupBy(leanCandidates(db, some, measures), ({ printId }) => printId);
    for (const printId of some)
      for (const side of SIDES) {
        const candidates = (byPrint.get(printId) ?? []).filter((candidate) => candidate.side === side);
        if (candidates.length === 0) continue;
        counts.sides++;
        const held = masters.get(`${printId} ${side}`);
        if (held?.decidedBy === "person") {
          counts.byHand++;
          continue;
        }
        const [before, after] = [held?.captureId ?? null, masterByRule(candidates, limits)];
        if (before === after) continue;
        counts[before === null ? "gained" : after === null ? "lost" : "another"]++;
        if (first.length < MOST_NAMED) first.push({ printId, side, before, after });
      }
    await others();
  }
  return { ...counts, first: first.map((change) => inNames(context, change)) };
}

function inNames(
  { db }: Context,
  { printId, side, ...of }: { printId: number; side: Side; before: number | null; after: number | null },
): WouldChange {
  const print = findPrint(db, printId);
  const captures = listCapturesOfPrint(db, printId);
  const nameOf = (id: number | null) => captures.find((capture) => capture.id === id)?.name ?? null;
  return {
    printId,
    side,
    objectNumber: print?.objectNumber ?? "",
    title: print?.title ?? "",
    before: nameOf(of.before),
    after: nameOf(of.after),
  };
}
