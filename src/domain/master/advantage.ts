import type { AimLimit } from "../aim/aim.ts";
import type { Shown } from "../aim/measure-words.ts";
import { desirability } from "./desirability.ts";
import type { Verdict } from "./judgement.ts";

/**
 * A worthless value counts this much and not 0, so that one bad measure does not hide how two
 * captures differ in all others; what must not happen at all is a requirement (own choice).
 */
export const LEAST = 0.01;

export type Part = {
  readonly measure: string;
  /** share of this measure in the advantage: positive where `one` is better */
  readonly weighs: number;
  readonly one: Shown;
  readonly other: Shown;
  /** whether the two differ by more than their readings leave open (both spreads, one standard uncertainty each) */
  readonly isToldApart: boolean;
};

export type Advantage = {
  /** logarithm of the ratio of the overall desirabilities on the measures that both show; 0 when they share none */
  readonly value: number;
  /** standard uncertainty that those of the readings leave it with */
  readonly spread: number;
  /** measure by measure, the one that speaks loudest for `one` first */
  readonly parts: readonly Part[];
};

/**
 * How much better one capture is than another, on the measures that both show. A measure that one
 * of them does not show is left out of this pair, for and against neither.
 * @param limits in the order of the verdicts' measures
 */
export function advantage(one: Verdict, other: Verdict, limits: readonly AimLimit[]): Advantage {
  const shared = limits.flatMap((limit, index) => {
    const ours = one.measures[index];
    const theirs = other.measures[index];
    if (limit.weight === 0 || !ours || !theirs || ours.value === null || theirs.value === null) return [];
    return [{ limit, ours: { ...ours, value: ours.value }, theirs: { ...theirs, value: theirs.value } }];
  });
  const sum = shared.reduce((total, { limit }) => total + limit.weight, 0);
  const parts = shared.map(({ limit, ours, theirs }) => ({
    measure: limit.measure,
    weighs: (limit.weight * (logarithm(limit, ours.value) - logarithm(limit, theirs.value))) / sum,
    one: { value: ours.value, bound: ours.bound },
    other: { value: theirs.value, bound: theirs.bound },
    isToldApart: Math.abs(ours.value - theirs.value) > Math.hypot(ours.spread ?? 0, theirs.spread ?? 0),
  }));
  const variance = shared.reduce(
    (total, { limit, ours, theirs }) =>
      total + (limit.weight / sum) ** 2 * (doubt(limit, ours.value, ours.spread) ** 2 + doubt(limit, theirs.value, theirs.spread) ** 2),
    0,
  );
  return {
    value: aheadBy(one, other, limits),
    spread: Math.sqrt(variance),
    parts: parts.toSorted((a, b) => b.weighs - a.weighs),
  };
}

/** What speaks loudest for `one`: a difference beyond doubt where there is one, since a louder one may be none. */
export function loudestFor({ parts }: Advantage): Part | undefined {
  const speaking = parts.filter(({ weighs }) => weighs > 0);
  return speaking.find(({ isToldApart }) => isToldApart) ?? speaking[0];
}

/** The value of an advantage alone, for those who ask many times. */
export function aheadBy(one: Verdict, other: Verdict, limits: readonly AimLimit[]): number {
  let [sum, ahead] = [0, 0];
  for (const [index, limit] of limits.entries()) {
    const ours = one.measures[index]?.value ?? null;
    const theirs = other.measures[index]?.value ?? null;
    if (limit.weight === 0 || ours === null || theirs === null) continue;
    sum += limit.weight;
    ahead += limit.weight * (logarithm(limit, ours) - logarithm(limit, theirs));
  }
  return sum === 0 ? 0 : ahead / sum;
}

/** Logarithm of the desirability, from the least that counts upwards. */
export const logarithm = (limit: AimLimit, value: number): number => Math.log(Math.max(LEAST, desirability(limit, value)));

const doubt = (limit: AimLimit, value: number, spread: number | null): number =>
  spread === null ? 0 : Math.abs(logarithm(limit, value + spread) - logarithm(limit, value - spread)) / 2;
