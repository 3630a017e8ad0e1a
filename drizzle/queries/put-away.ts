import { and, desc, eq, isNotNull, sql } from "drizzle-orm";
import type { Side } from "#domain/capture/capture.ts";
import { type Queryable, schema } from "../client.ts";
import { captureName } from "./capture-name.ts";

/** A capture that was put away, with what the history says of it. */
export type PutAway = {
  readonly captureId: number;
  readonly name: string;
  readonly side: Side;
  readonly print: { readonly id: number; readonly objectNumber: string; readonly title: string } | null;
  readonly at: string;
  readonly who: string | null;
  readonly reason: string;
};

/** What was put away, the latest first. */
export const listPutAway = (db: Queryable): PutAway[] => rows(db);

/** Who put a capture away, when and why; null while it counts. */
export const putAwayOf = (db: Queryable, captureId: number): PutAway | null => rows(db, captureId)[0] ?? null;

function rows(db: Queryable, captureId?: number): PutAway[] {
  const { captures, events, originals, prints, users } = schema;
  const last = sql`(select max(e.id) from events e where e.subject = 'capture' and e.subject_id = ${captures.id} and e.verb = 'put away')`;
  return db
    .select({
      captureId: captures.id,
      name: captureName,
      side: captures.side,
      print: { id: prints.id, objectNumber: prints.objectNumber, title: prints.title },
      at: events.at,
      who: users.name,
      reason: sql<string>`json_extract(${events.detail}, '$.reason')`,
    })
    .from(captures)
    .innerJoin(originals, eq(originals.id, captures.originalId))
    .innerJoin(events, eq(events.id, last))
    .leftJoin(prints, eq(prints.id, captures.printId))
    .leftJoin(users, eq(users.id, events.userId))
    .where(and(isNotNull(captures.putAwayAt), captureId === undefined ? undefined : eq(captures.id, captureId)))
    .orderBy(desc(events.id))
    .all();
}
