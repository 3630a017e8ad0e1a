import { desc, eq } from "drizzle-orm";
import { type Queryable, schema } from "../client.ts";

export type FixityOutcome = "unchanged" | "changed" | "missing" | "unreadable";

export type FixityCheck = {
  readonly originalId: number;
  readonly checkedAt: string;
  readonly outcome: FixityOutcome;
  readonly foundSha256: string | null;
};

export function insertFixityCheck(db: Queryable, check: FixityCheck): void {
  db.insert(schema.fixityChecks).values(check).run();
}

/** Every look at one original, newest first. */
export function fixityOfOriginal(db: Queryable, originalId: number, most = 50): FixityCheck[] {
  return db
    .select()
    .from(schema.fixityChecks)
    .where(eq(schema.fixityChecks.originalId, originalId))
    .orderBy(desc(schema.fixityChecks.id))
    .limit(most)
    .all();
}
