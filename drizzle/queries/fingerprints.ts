import { and, eq, isNull } from "drizzle-orm";
import type { Side } from "#domain/capture/capture.ts";
import type { Fingerprint } from "#domain/measure/fingerprint.ts";
import { type Queryable, schema } from "../client.ts";
import { STANDS } from "./standing-captures.ts";

export type KnownCapture = { readonly captureId: number; readonly printId: number; readonly side: Side; readonly fingerprint: Fingerprint };

/** Keeps what a capture's picture looks like from afar; null where none could be made. */
export function replaceFingerprint(db: Queryable, captureId: number, fingerprint: Fingerprint | null): void {
  db.delete(schema.fingerprints).where(eq(schema.fingerprints.captureId, captureId)).run();
  if (!fingerprint) return;
  const print = Buffer.from(Float32Array.from(fingerprint).buffer);
  db.insert(schema.fingerprints).values({ captureId, print }).run();
}

export function findFingerprint(db: Queryable, captureId: number): Fingerprint | null {
  const row = db.select().from(schema.fingerprints).where(eq(schema.fingerprints.captureId, captureId)).get();
  return row ? asFloats(row.print) : null;
}

/** Every capture that belongs to a print outside the bin and can be recognised. */
export function listKnownCaptures(db: Queryable): KnownCapture[] {
  const { captures, fingerprints, prints } = schema;
  return db
    .select({ captureId: captures.id, printId: prints.id, side: captures.side, print: fingerprints.print })
    .from(fingerprints)
    .innerJoin(captures, eq(captures.id, fingerprints.captureId))
    .innerJoin(prints, eq(prints.id, captures.printId))
    .where(and(isNull(prints.binnedAt), STANDS))
    .all()
    .map(({ print, ...known }) => ({ ...known, fingerprint: asFloats(print) }));
}

const asFloats = (print: Buffer): Fingerprint => new Float32Array(new Uint8Array(print).buffer);
