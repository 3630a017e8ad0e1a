import type { Shortfall, Verdict } from "../master/judgement.ts";

/** open: waits to be captured. ticked: captured at the stand, the file is not here yet. let-go: good enough, said by a person. */
export const ROW_STATES = ["open", "ticked", "closed", "let-go"] as const;
export type RowState = (typeof ROW_STATES)[number];

/** A row of a work sheet as it was when it was last judged. */
export type JudgedRow = {
  readonly state: RowState /** captures of that side that were judged already */;
  readonly knownCaptureIds: readonly number[];
};

/** What a new choice makes of a row. */
export type RowChange =
  | {
      readonly to: "closed" /** the new capture that meets the aim; null where the aim or the choice changed instead */;
      readonly captureId: number | null;
    }
  | {
      readonly to: "open";
      readonly why: "new-capture" | "short-again";
      readonly captureId: number;
      readonly shortfalls: readonly Shortfall[];
    };

/** The choice that now holds for the row's side and purpose. */
export type NewChoice = { readonly captureId: number | null; readonly bestId: number | null; readonly verdicts: readonly Verdict[] };

/**
 * Whether a row closes, or opens again, now that its side was judged anew; null where it stays as it is. It closes when the best
 * capture meets the aim, or when a new one does though another stays master by a person's word. A new capture that falls short
 * opens it again with what that capture lacks, whichever capture is the best. A row that a person let go stays so.
 */
export function judgedRow({ state, knownCaptureIds }: JudgedRow, { captureId, bestId, verdicts }: NewChoice): RowChange | null {
  if (state === "let-go") return null;
  const fresh = verdicts.filter((verdict) => isMeasured(verdict) && !knownCaptureIds.includes(verdict.captureId));
  const best = verdicts.find((verdict) => verdict.captureId === (captureId ?? bestId));
  const meeting = fresh.find(({ shortfalls }) => shortfalls.length === 0);
  const isMet = best !== undefined && isMeasured(best) && best.shortfalls.length === 0;
  if (isMet || meeting) {
    const by = isMet && fresh.includes(best) ? best : (meeting ?? null);
    return state === "closed" ? null : { to: "closed", captureId: by?.captureId ?? null };
  }
  const attempt = fresh.at(-1);
  if (attempt) return { to: "open", why: "new-capture", captureId: attempt.captureId, shortfalls: attempt.shortfalls };
  if (state === "closed" && best && isMeasured(best))
    return { to: "open", why: "short-again", captureId: best.captureId, shortfalls: best.shortfalls };
  return null;
}

/** The captures that a row knows once it was judged so. */
export const knownAfter = (verdicts: readonly Verdict[]): number[] => verdicts.filter(isMeasured).map(({ captureId }) => captureId);

/** A capture that waits to be measured shows nothing yet, and is not an attempt that failed. */
const isMeasured = ({ measures }: Verdict): boolean => measures.some(({ value }) => value !== null);
