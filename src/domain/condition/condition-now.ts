import type { DatedFinding, FindingLife } from "./finding.ts";
import type { Survey } from "./survey.ts";

/** One thing found, with its last judgement. */
export type LifeNow = { readonly life: FindingLife; readonly last: DatedFinding };

/** What is known of a print's condition now: what stands, what is gone, and what was looked for in vain at the last look. */
export type ConditionNow = {
  readonly standing: readonly LifeNow[];
  readonly gone: readonly LifeNow[];
  readonly notFound: readonly LifeNow[];
};

/** @param survey the last one; null: nobody has looked yet */
export function conditionNow(lives: readonly FindingLife[], survey: Pick<Survey, "id"> | null): ConditionNow {
  const now = lives.map((life) => ({ life, last: lastOf(life) }));
  const atLast = now.filter(({ last }) => last.surveyId === survey?.id);
  return {
    standing: atLast.filter(({ last }) => last.severity > 0),
    gone: now.filter(({ last }) => last.change === "gone"),
    notFound: atLast.filter(({ life, last }) => life.length === 1 && last.severity === 0),
  };
}

export const lastOf = (life: FindingLife): DatedFinding => life[life.length - 1] ?? life[0];
