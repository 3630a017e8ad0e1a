import { and, asc, eq, sql } from "drizzle-orm";
import type { Capture, Side } from "#domain/capture/capture.ts";
import { type Queryable, schema } from "../client.ts";
import { groupBy } from "./group-by.ts";
import { STANDS } from "./standing-captures.ts";

const { captures, originals, setUps, work } = schema;

/** A capture of a print, as lists name it. */
export type PrintFile = {
  readonly captureId: number;
  readonly side: Side;
  readonly fileName: string;
  readonly sha256: string;
  readonly method: Capture["method"];
  readonly setUpName: string | null;
  /** true while it waits to be measured, or is being measured */
  readonly isMeasuring: boolean;
};

/** The captures of many prints at once, by print id, in the order taken in; prints without one are left out. */
export function filesOfPrints(db: Queryable, printIds: readonly number[]): Map<number | null, PrintFile[]> {
  const isMeasuring = sql<number>`exists (select 1 from ${work} where ${work.captureId} = ${captures.id} and ${work.kind} = 'measure' and ${work.state} in ('waiting', 'running'))`;
  const rows = db
    .select({
      printId: captures.printId,
      captureId: captures.id,
      side: captures.side,
      fileName: originals.originalName,
      sha256: originals.sha256,
      method: captures.method,
      setUpName: setUps.name,
      isMeasuring,
    })
    .from(captures)
    .innerJoin(originals, eq(originals.id, captures.originalId))
    .leftJoin(setUps, eq(setUps.id, captures.setUpId))
    .where(and(STANDS, sql`${captures.printId} in (select value from json_each(${JSON.stringify(printIds)}))`))
    .orderBy(asc(captures.id))
    .all();
  return groupBy(
    rows.map((row) => ({ ...row, isMeasuring: row.isMeasuring === 1 })),
    (row) => row.printId,
  );
}
