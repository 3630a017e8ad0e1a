import type { Side } from "../capture/capture.ts";
import type { Extent } from "./extent.ts";
import type { MarkedRegion } from "./marked-region.ts";

export const ACTIVITIES = ["not-known", "active", "stable"] as const;
export type Activity = (typeof ACTIVITIES)[number];

export const ACTIVITY_WORDS: Readonly<Record<Activity, string>> = { "not-known": "not known", active: "active", stable: "not active" };

/** What became of an earlier finding. A finding that nobody looked at this time is carried on unchanged, without one of these. */
export const CHANGES = ["better", "same", "worse", "gone"] as const;
export type Change = (typeof CHANGES)[number];

/** One judgement of one thing found, made in one survey. */
export type Finding = {
  readonly id: number;
  readonly term: string;
  /** 0: looked for, not found; or gone since */
  readonly severity: number;
  readonly activity: Activity;
  readonly side: Side;
  readonly extent: Extent | null;
  /** where on that side; none: not said */
  readonly regions: readonly MarkedRegion[];
  readonly note: string | null;
  readonly change: Change | null;
  /** the judgement of the same thing in an earlier survey */
  readonly earlierFindingId: number | null;
};

/** A judgement with the day it was made on, and by whom; null: not said. */
export type DatedFinding = Finding & { readonly surveyId: number; readonly surveyedOn: string; readonly lookedAtBy: string | null };

/** The same thing through all surveys that tell of it, oldest first. */
export type FindingLife = readonly [DatedFinding, ...DatedFinding[]];

/**
 * Follows every thing found from its first judgement to its last.
 * @param judgements of one print, from the earliest survey on
 */
export function livesOf(judgements: readonly DatedFinding[]): FindingLife[] {
  const lives = new Map<number, [DatedFinding, ...DatedFinding[]]>();
  for (const finding of judgements) {
    const life = finding.earlierFindingId === null ? undefined : lives.get(finding.earlierFindingId);
    if (life) life.push(finding);
    lives.set(finding.id, life ?? [finding]);
  }
  return [...new Set(lives.values())];
}
