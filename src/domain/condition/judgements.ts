import type { DatedFinding, Finding } from "./finding.ts";
import type { SurveyInput } from "./survey-input.ts";

type Rejudged = SurveyInput["rejudged"][number];
/** A judgement that is not kept yet. */
export type Judgement = Omit<Finding, "id">;

/**
 * What a look at a print leaves known of it: earlier findings as judged again or carried on, then the new ones.
 * @param standing what was found before and had not gone; a row about anything else is left out
 */
export function judgements({ rejudged, found }: Pick<SurveyInput, "rejudged" | "found">, standing: readonly DatedFinding[]): Judgement[] {
  const again = rejudged.flatMap((row) => {
    const before = standing.find(({ id }) => id === row.findingId);
    return before ? [judgedAgain(row, before)] : [];
  });
  return [...again, ...found.map((row) => ({ ...row, change: null, earlierFindingId: null }))];
}

function judgedAgain(row: Rejudged, before: DatedFinding): Judgement {
  const kept = { term: before.term, side: before.side, earlierFindingId: before.id };
  if (row.change === "not-looked")
    return {
      ...kept,
      extent: before.extent,
      regions: before.regions,
      severity: before.severity,
      activity: before.activity,
      note: before.note,
      change: null,
    };
  if (row.change === "gone")
    return { ...kept, extent: null, regions: [], severity: 0, activity: "not-known", note: row.note, change: "gone" };
  return {
    ...kept,
    extent: row.extent === undefined ? before.extent : row.extent,
    regions: row.regions ?? before.regions,
    severity: row.severity,
    activity: row.activity,
    note: row.note,
    change: row.change,
  };
}

/**
 * Why what is said of a finding and its level do not go together; null when they do. Better or worse may stay within one level, as a
 * level is wide; it cannot go the other way.
 * @param before the level it had
 */
export function contradiction({ change, severity }: Pick<Rejudged, "change" | "severity">, before: number): string | null {
  if (change === "same" && severity !== before) return `It is said to be the same, but it was level ${before} before.`;
  if (change === "better" && severity > before) return `It is said to be better, but it was only level ${before} before.`;
  if (change === "worse" && severity < before) return `It is said to be worse, but it was level ${before} before.`;
  return (change === "better" || change === "worse") && severity === 0 ? "Level 0 says that it is gone." : null;
}
