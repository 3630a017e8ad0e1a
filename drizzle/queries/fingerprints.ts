import { and, eq, isNull } from "drizzle-orm";
import type { Side } from "#domain/capture/capture.ts";
import { type Fingerprint, isFingerprint } from "#domain/measure/likeness/fingerprint.ts";
import { eachView, type Views } from "#domain/measure/likeness/likeness-views.ts";
import { type Queryable, schema } from "../client.ts";
import { STANDS } from "./standing-captures.ts";

export type KnownCapture = {
  readonly captureId: number;
  /** null: it waits in the tray */
  readonly printId: number | null;
  readonly side: Side;
  readonly views: Views<Fingerprint>;
};

/** Keeps what a capture's print and its frame look like from afar. */
export function replaceFingerprints(db: Queryable, captureId: number, views: Views<Fingerprint>): void {
  db.delete(schema.fingerprints).where(eq(schema.fingerprints.captureId, captureId)).run();
  if (!views.print && !views.frame) return;
  db.insert(schema.fingerprints)
    .values({ captureId, ...eachView(views, asBytes) })
    .run();
}

/** Null where there are none, or only some of an older kind. */
export function findFingerprints(db: Queryable, captureId: number): Views<Fingerprint> | null {
  const row = db.select().from(schema.fingerprints).where(eq(schema.fingerprints.captureId, captureId)).get();
  const views = row && eachView(row, asFingerprint);
  return views && (views.print || views.frame) ? views : null;
}

/** Every capture of a print outside the bin, or waiting in the tray, that can be recognised; null views are of an older kind until it is measured anew. */
export function listKnownCaptures(db: Queryable): KnownCapture[] {
  const { captures, fingerprints, prints } = schema;
  return db
    .select({ captureId: captures.id, printId: prints.id, side: captures.side, print: fingerprints.print, frame: fingerprints.frame })
    .from(fingerprints)
    .innerJoin(captures, eq(captures.id, fingerprints.captureId))
    .leftJoin(prints, eq(prints.id, captures.printId))
    .where(and(isNull(prints.binnedAt), STANDS))
    .all()
    .map(({ print, frame, ...known }) => ({ ...known, views: eachView({ print, frame }, asFingerprint) }));
}

/** How many captures of prints outside the bin cannot be recognised: not measured yet, or kept only as an older kind. */
export function countUnrecognisable(db: Queryable): number {
  const { captures, fingerprints, prints } = schema;
  return db
    .select({ print: fingerprints.print, frame: fingerprints.frame })
    .from(captures)
    .innerJoin(prints, eq(prints.id, captures.printId))
    .leftJoin(fingerprints, eq(fingerprints.captureId, captures.id))
    .where(and(isNull(prints.binnedAt), STANDS))
    .all()
    .filter(({ print, frame }) => ![print, frame].some((bytes) => bytes !== null && asFingerprint(bytes) !== null)).length;
}

const asBytes = (print: Fingerprint) => Buffer.from(Float32Array.from(print).buffer);
const asFingerprint = (bytes: Buffer): Fingerprint | null => {
  const numbers = new Float32Array(new Uint8Array(bytes).buffer);
  return isFingerprint(numbers) ? numbers : null;
};
