import { and, eq, isNull } from "drizzle-orm";
import type { Method } from "#domain/capture/method.ts";
import type { Judgement } from "#domain/master/judgement.ts";
import type { JudgedCapture } from "#domain/methods/way.ts";
import { type Queryable, schema } from "../client.ts";

/** A capture with what the choice that holds for a purpose says of it, and how it was made. */
export type CaptureMade = Omit<JudgedCapture, "way"> & { readonly method: Method | null; readonly setUpId: number | null };

/**
 * Every capture that takes part in the choices that hold for a purpose, of prints that are not in the bin: print by print, as they came in.
 * What the program judged is taken as it was written: to check every explanation of a collection again takes longer than all that is asked of it.
 */
export function judgedCaptures(db: Queryable, purposeId: number): CaptureMade[] {
  const { captures, choices, originals, prints } = schema;
  const made = new Map(
    db
      .select({ id: captures.id, method: captures.method, setUpId: captures.setUpId, takenAt: originals.capturedAt })
      .from(captures)
      .innerJoin(originals, eq(originals.id, captures.originalId))
      .all()
      .map(({ id, ...rest }) => [id, rest]),
  );
  const held = db
    .select({ printId: choices.printId, side: choices.side, explanation: choices.explanation })
    .from(choices)
    .innerJoin(prints, eq(prints.id, choices.printId))
    .where(and(eq(choices.purposeId, purposeId), isNull(choices.supersededAt), isNull(prints.binnedAt)))
    .orderBy(choices.printId, choices.side)
    .all();
  return held.flatMap(({ printId, side, explanation }) =>
    (explanation as Judgement).verdicts
      .toSorted((a, b) => a.captureId - b.captureId)
      .flatMap(({ captureId, measures, shortfalls }) => {
        const capture = made.get(captureId);
        if (!capture) return [];
        const shown = measures.flatMap(({ measure, value, bound }) => (value === null ? [] : [[measure, { value, bound }] as const]));
        return [{ ...capture, printId, side, meets: shortfalls.length === 0, values: new Map(shown) }];
      }),
  );
}
