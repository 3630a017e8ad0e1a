import type { Shortfall, Verdict } from "../master/judgement.ts";

/** open: waits to be captured. ticked: captured at the stand, the file is not here yet. let-go: good enough, said by a person. */
export const ROW_STATES = ["open", "ticked", "closed", "let-go"] as const;
export type RowState = (typeof ROW_STATES)[number];

/** A row of a work sheet as it was when it was last judged. */
export type JudgedRow = {
  readonly state: RowState /** captures of that side that were judged already */;
  readonly knownCaptureIds: readonly number[];
  /** what a person said, that it is good enough, holds still */
  readonly isExempt: boolean;
};

/** What a new choice makes of a row. */
export type RowChange =
  | {
      readonly to: "closed" /** the new capture that meets the aim; null where the aim or the choice changed instead */;
      readonly captureId: number | null;
    }
  | {
      readonly to: "open";
      readonly why: "new-capture" | "short-again" | "none-measured";
      readonly captureId: number | null;
      readonly shortfalls: readonly Shortfall[];
    };

/** The choice that now holds for the row's side and purpose. */
export type NewChoice = { readonly captureId: number | null; readonly bestId: number | null; readonly verdicts: readonly Verdict[] };

/**
 * Whether a row closes, or opens again, now that its side was judged anew; null where it stays as it is. It closes when a capture
 * meets the aim, be it the master or not: another may be master by a person's word. A new capture that falls short opens it again
 * with what that capture lacks, whichever capture is the best. A row that a person let go stays so as long as their word holds; after
 * that it is asked for again like any other.
 */
export function judgedRow({ state, knownCaptureIds, isExempt }: JudgedRow, { captureId, bestId, verdicts }: NewChoice): RowChange | null {
  if (state === "let-go" && isExempt) return null;
  const measured = verdicts.filter(isMeasured);
  const isFresh = (verdict: Verdict) => !knownCaptureIds.includes(verdict.captureId);
  const meeting = measured.filter(({ shortfalls }) => shortfalls.length === 0);
  if (meeting.length > 0) {
    const fresh = meeting.filter(isFresh);
    const by = fresh.find((verdict) => verdict.captureId === captureId) ?? fresh[0];
    return state === "closed" ? null : { to: "closed", captureId: by?.captureId ?? null };
  }
  const attempt = measured.findLast(isFresh);
  if (attempt) return { to: "open", why: "new-capture", captureId: attempt.captureId, shortfalls: attempt.shortfalls };
  const best = measured.find((verdict) => verdict.captureId === (captureId ?? bestId));
  const wasDone = state === "closed" || state === "let-go";
  if (wasDone && best) return { to: "open", why: "short-again", captureId: best.captureId, shortfalls: best.shortfalls };
  if (state === "let-go") return { to: "open", why: "none-measured", captureId: null, shortfalls: [] };
  return null;
}

/** The captures that a row knows once it was judged so. */
export const knownAfter = (verdicts: readonly Verdict[]): number[] => verdicts.filter(isMeasured).map(({ captureId }) => captureId);

/** A capture that waits to be measured shows nothing yet, and is not an attempt that failed. */
const isMeasured = ({ measures }: Verdict): boolean => measures.some(({ value }) => value !== null);
