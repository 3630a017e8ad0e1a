import { and, desc, eq, type SQL } from "drizzle-orm";
import { type Queryable, schema } from "../client.ts";

export type NewEvent = typeof schema.events.$inferInsert;
export type HistoryLine = {
  at: string;
  who: string | null;
  verb: string;
  subject: string;
  subjectId: number;
  detail: Record<string, unknown>;
};

/** Adds one line to the history. Call it inside the transaction of the change it tells of. */
export function recordEvent(db: Queryable, event: NewEvent): void {
  db.insert(schema.events).values(event).run();
}

/** What happened to a print and its captures, newest first. */
export function historyOfPrint(db: Queryable, printId: number, most = 200): HistoryLine[] {
  return history(db, eq(schema.events.printId, printId), most);
}

/** What happened to any other record, newest first. */
export function historyOf(db: Queryable, subject: NewEvent["subject"], subjectId: number, most = 200): HistoryLine[] {
  return history(db, and(eq(schema.events.subject, subject), eq(schema.events.subjectId, subjectId)), most);
}

function history(db: Queryable, where: SQL | undefined, most: number): HistoryLine[] {
  return db
    .select({
      at: schema.events.at,
      who: schema.users.name,
      verb: schema.events.verb,
      subject: schema.events.subject,
      subjectId: schema.events.subjectId,
      detail: schema.events.detail,
    })
    .from(schema.events)
    .leftJoin(schema.users, eq(schema.users.id, schema.events.userId))
    .where(where)
    .orderBy(desc(schema.events.id))
    .limit(most)
    .all();
}
