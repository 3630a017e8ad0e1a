import { and, asc, count, desc, eq, isNotNull, isNull, notExists, sql } from "drizzle-orm";
import { type Queryable, schema } from "../client.ts";
import { captureName } from "./capture-name.ts";
import type { CaptureWithOriginal } from "./captures.ts";
import { fallsShort, needsRecapture } from "./needs-recapture.ts";
import { STANDS } from "./standing-captures.ts";

export type CollectionCounts = {
  readonly prints: number;
  readonly captures: number;
  /** prints with a preservation master of their front, i.e. a master for the first purpose */
  readonly masters: number;
  readonly printsWithoutCapture: number;
  /** prints with a side whose best capture lacks something that the preservation master is asked for */
  readonly fallShort: number;
  /** as the recapture list has them: either of both, less what a person said is good enough */
  readonly toRecapture: number;
  readonly inTray: number;
};

export type RecentCapture = CaptureWithOriginal & {
  readonly print: { readonly id: number; readonly objectNumber: string; readonly title: string } | null;
};

/** How much there is of everything; binned prints count only as binned. */
export function countCollection(db: Queryable): CollectionCounts {
  const { prints, captures, choices, purposes } = schema;
  const isKept = isNull(prints.binnedAt);
  const ofPrint = db
    .select({ one: sql`1` })
    .from(captures)
    .where(and(eq(captures.printId, prints.id), STANDS));
  const firstPurpose = db.select({ id: purposes.id }).from(purposes).orderBy(asc(purposes.position)).limit(1);
  return {
    prints: one(db.select({ n: count() }).from(prints).where(isKept).get()),
    captures: one(
      db.select({ n: count() }).from(captures).leftJoin(prints, eq(prints.id, captures.printId)).where(and(STANDS, isKept)).get(),
    ),
    masters: one(
      db
        .select({ n: sql<number>`count(distinct ${choices.printId})` })
        .from(choices)
        .innerJoin(prints, eq(prints.id, choices.printId))
        .where(
          and(
            isKept,
            isNull(choices.supersededAt),
            isNotNull(choices.captureId),
            eq(choices.side, "front"),
            eq(choices.purposeId, firstPurpose),
          ),
        )
        .get(),
    ),
    printsWithoutCapture: one(
      db
        .select({ n: count() })
        .from(prints)
        .where(and(isKept, notExists(ofPrint)))
        .get(),
    ),
    fallShort: one(db.select({ n: count() }).from(prints).where(and(isKept, fallsShort())).get()),
    toRecapture: one(
      db
        .select({ n: count() })
        .from(prints)
        .where(and(isKept, needsRecapture("needed")))
        .get(),
    ),
    inTray: one(
      db
        .select({ n: count() })
        .from(captures)
        .where(and(isNull(captures.printId), STANDS))
        .get(),
    ),
  };
}

/** The captures taken in last, newest first, with the print each belongs to; those of binned prints are left out. */
export function listRecentCaptures(db: Queryable, most: number): RecentCapture[] {
  const { captures, originals, prints } = schema;
  return db
    .select({
      capture: captures,
      original: originals,
      name: captureName,
      print: { id: prints.id, objectNumber: prints.objectNumber, title: prints.title },
    })
    .from(captures)
    .innerJoin(originals, eq(originals.id, captures.originalId))
    .leftJoin(prints, eq(prints.id, captures.printId))
    .where(and(STANDS, isNull(prints.binnedAt)))
    .orderBy(desc(captures.id))
    .limit(most)
    .all()
    .map(({ capture, ...row }) => ({ ...capture, ...row }));
}

const one = (row: { n: number } | undefined) => row?.n ?? 0;
