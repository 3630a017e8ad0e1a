import { and, asc, eq, isNull, sql } from "drizzle-orm";
import type { Capture, Original, Side } from "#domain/capture/capture.ts";
import type { Method } from "#domain/capture/method.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { type Queryable, schema } from "../client.ts";
import { captureName } from "./capture-name.ts";
import { STANDS } from "./standing-captures.ts";

export type NewOriginal = Omit<Original, "id" | "uuid" | "createdAt">;
export type NewCapture = Pick<Capture, "originalId"> & Partial<Omit<Capture, "id" | "uuid" | "originalId" | "createdAt">>;
/** `name` is what it is called on screens: its file, and which part of a bed it is. */
export type CaptureWithOriginal = Capture & { readonly original: Original; readonly name: string };

export function insertOriginal(db: Queryable, original: NewOriginal): Original {
  return db.insert(schema.originals).values(original).returning().get();
}

export function findOriginalBySha256(db: Queryable, sha256: string): Original | null {
  return db.select().from(schema.originals).where(eq(schema.originals.sha256, sha256)).get() ?? null;
}

/** Every original, in the order taken in. */
export function listOriginals(db: Queryable): Original[] {
  return db.select().from(schema.originals).orderBy(asc(schema.originals.id)).all();
}

export function insertCapture(db: Queryable, capture: NewCapture): Capture {
  return db.insert(schema.captures).values(capture).returning().get();
}

export function findCapture(db: Queryable, id: number): CaptureWithOriginal | null {
  const row = joined(db).where(eq(schema.captures.id, id)).get();
  return row ? withOriginal(row) : null;
}

/** Every capture made of an original, the whole of it and parts alike. */
export function listCapturesOfOriginal(db: Queryable, originalId: number): Capture[] {
  return db.select().from(schema.captures).where(eq(schema.captures.originalId, originalId)).orderBy(asc(schema.captures.id)).all();
}

/** A print's captures of both sides, front first. A divided bed is no capture of a print: its parts are; nor is one that was put away. */
export function listCapturesOfPrint(db: Queryable, printId: number): CaptureWithOriginal[] {
  return joined(db)
    .where(and(eq(schema.captures.printId, printId), STANDS))
    .orderBy(sql`${schema.captures.side} = 'back'`, asc(schema.captures.id))
    .all()
    .map(withOriginal);
}

/** Captures that wait for a print, oldest first. */
export function listTray(db: Queryable): CaptureWithOriginal[] {
  return joined(db)
    .where(and(isNull(schema.captures.printId), STANDS))
    .orderBy(asc(schema.captures.id))
    .all()
    .map(withOriginal);
}

/** Ids of every capture that can be measured, oldest first. */
export function listCaptureIds(db: Queryable): number[] {
  return db
    .select({ id: schema.captures.id })
    .from(schema.captures)
    .where(STANDS)
    .orderBy(asc(schema.captures.id))
    .all()
    .map((row) => row.id);
}

export function setCapturePrint(db: Queryable, captureId: number, to: { printId: number | null; side: Side }): void {
  db.update(schema.captures).set(to).where(eq(schema.captures.id, captureId)).run();
}

/** The bed leaves the tray and its print: its parts stand for it from now on. */
export function setCaptureDivided(db: Queryable, captureId: number): void {
  db.update(schema.captures).set({ divided: true, printId: null }).where(eq(schema.captures.id, captureId)).run();
}

/** Null takes it back. */
export function setCapturePutAway(db: Queryable, captureId: number, putAwayAt: string | null): void {
  db.update(schema.captures).set({ putAwayAt }).where(eq(schema.captures.id, captureId)).run();
}

/** Null leaves the outline to measuring again. */
export function setSaidOutline(db: Queryable, captureId: number, saidOutline: Quad | null): void {
  db.update(schema.captures).set({ saidOutline }).where(eq(schema.captures.id, captureId)).run();
}

export function setHowCaptured(
  db: Queryable,
  captureId: number,
  to: { method: Method | null; methodBasis: "said" | "guessed" | null; setUpId: number | null; saidDay: string | null },
): void {
  db.update(schema.captures).set(to).where(eq(schema.captures.id, captureId)).run();
}

const joined = (db: Queryable) =>
  db
    .select({ capture: schema.captures, original: schema.originals, name: captureName })
    .from(schema.captures)
    .innerJoin(schema.originals, eq(schema.originals.id, schema.captures.originalId));

const withOriginal = ({ capture, original, name }: { capture: Capture; original: Original; name: string }): CaptureWithOriginal => ({
  ...capture,
  original: capture.saidDay === null ? original : { ...original, capturedAt: capture.saidDay },
  name,
});
