import { type Share, shareWithInterval } from "../condition/sampling.ts";

export const EYE_ANSWERS = ["left", "right", "cannot-tell"] as const;
export type EyeAnswer = (typeof EYE_ANSWERS)[number];

/** A pair that a person judged, and what the rule had gone by. */
export type Judged = {
  /** null: the person could not tell */
  readonly agrees: boolean | null;
  /** the measure that had decided; null where none had */
  readonly decisive: string | null;
  readonly closeCall: boolean;
};

export type Agreement = {
  readonly agreed: number;
  readonly differed: number;
  readonly couldNotTell: number;
  /** of the pairs that could be told, with its 95 % interval (Wilson 1927, see condition/sampling.ts); null where there are none */
  readonly share: Share | null;
};

/** Fewer pairs tell next to nothing of one measure: the interval is then wider than half of everything (own choice). */
export const LEAST_OF_A_MEASURE = 5;

/** How often a person's eye found the same as the rule. */
export function agreement(judged: readonly Judged[]): Agreement {
  const agreed = judged.filter(({ agrees }) => agrees === true).length;
  const differed = judged.filter(({ agrees }) => agrees === false).length;
  const looked = agreed + differed;
  return {
    agreed,
    differed,
    couldNotTell: judged.length - looked,
    share: looked === 0 ? null : shareWithInterval({ seen: agreed, looked, population: null, confidencePercent: 95 }),
  };
}

/** The same for each measure that had decided enough pairs, the most often first. */
export function agreementByMeasure(judged: readonly Judged[]): { readonly measure: string; readonly agreement: Agreement }[] {
  const measures = [...new Set(judged.flatMap(({ decisive }) => (decisive === null ? [] : [decisive])))];
  return measures
    .map((measure) => ({ measure, agreement: agreement(judged.filter(({ decisive }) => decisive === measure)) }))
    .filter(({ agreement: { agreed, differed } }) => agreed + differed >= LEAST_OF_A_MEASURE)
    .toSorted((a, b) => b.agreement.agreed + b.agreement.differed - a.agreement.agreed - a.agreement.differed);
}
