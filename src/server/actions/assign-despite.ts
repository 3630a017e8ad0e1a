import type { Method } from "#domain/capture/method.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import type { CaptureWithOriginal } from "#drizzle/queries/captures.ts";
import type { Context } from "../context.ts";
import { assignCapture } from "./assign-capture.ts";

export type AssignDespite = {
  readonly captures: readonly CaptureWithOriginal[];
  readonly method: Method;
  readonly setUpId: number | undefined;
  /** why the method was used although a caution forbids it */
  readonly despite: string;
};

/** Records how captures of a print were made despite a caution: all of them or none. One that has it already is passed over. */
export function assignDespite(context: Context, { captures, method, setUpId, despite }: AssignDespite): Outcome<null> {
  const refusals: Refusal[] = [];
  try {
    context.db.transaction((tx) => {
      for (const { id: captureId, printId, ...held } of captures) {
        if (held.method === method && (setUpId === undefined || held.setUpId === setUpId)) continue;
        const assigned = assignCapture(context, { captureId, printId, method, setUpId, despite });
        if (assigned.ok) continue;
        refusals.push(...assigned.refusals);
        tx.rollback();
      }
    });
  } catch (error) {
    if (refusals.length === 0) throw error;
  }
  return refusals.length === 0 ? done(null) : refused(...refusals);
}
