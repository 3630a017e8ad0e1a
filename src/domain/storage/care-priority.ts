import type { Finding } from "../condition/finding.ts";
import { GRADE_WORDS, type Grade } from "../condition/grade.ts";
import type { Figure } from "./climate/series.ts";

/** One factor of the priority. What is not known counts as a middling case, never as a good one, and the range says what it may be. */
export type Factor = {
  readonly score: number;
  readonly least: number;
  readonly most: number;
  /** one clause for the keeper */
  readonly because: string;
  readonly isKnown: boolean;
};

export const FACTORS = ["condition", "activity", "significance", "climate"] as const;
export type FactorName = (typeof FACTORS)[number];

export type CarePriority = {
  /** the product of the four scores */
  readonly score: number;
  /** what it would be were all that is unknown at its best, and at its worst */
  readonly least: number;
  readonly most: number;
  readonly factors: Readonly<Record<FactorName, Factor>>;
  readonly unknown: readonly FactorName[];
};

/** What the priority is made of. */
export type CareFacts = {
  readonly grade: Grade | null;
  /** what the last survey found and had not gone; null: never surveyed */
  readonly findings: readonly Pick<Finding, "severity" | "activity">[] | null;
  /** 1 to 5, as the keeper judged it */
  readonly significance: number | null;
  /** of the time in the print's place: the share outside its published limit, and the days on which mould could grow */
  readonly climate: Figure<{ readonly outsideShare: number; readonly unknownShare: number; readonly mouldDays: number | null }>;
};

/**
 * What to care for first: condition x activity x significance x climate risk, each factor with its reason. The idea of scoring and
 * ranking: U.S. National Park Service, Conserve O Gram 19, prioritising materials for duplication (value, risk, use). The scores and
 * their product are our own.
 */
export function carePriority(facts: CareFacts): CarePriority {
  const factors = {
    condition: conditionOf(facts),
    activity: activityOf(facts),
    significance: significanceOf(facts),
    climate: climateFactor(facts.climate),
  };
  const product = (of: "score" | "least" | "most") => FACTORS.reduce((all, name) => all * factors[name][of], 1);
  return {
    score: product("score"),
    least: product("least"),
    most: product("most"),
    factors,
    unknown: FACTORS.filter((name) => !factors[name].isKnown),
  };
}

/** A factor of which all is known. */
export const told = (score: number, because: string): Factor => ({ score, least: score, most: score, because, isKnown: true });
const untold = (score: number, least: number, most: number, because: string): Factor => ({ score, least, most, because, isKnown: false });

const GRADE_SCORES: Readonly<Record<Grade, number>> = { good: 1, fair: 2, poor: 3, unacceptable: 4 };

function conditionOf({ grade }: CareFacts): Factor {
  if (grade === null) return untold(2, 1, 4, "never surveyed");
  return told(GRADE_SCORES[grade], GRADE_WORDS[grade].toLowerCase());
}

function activityOf({ findings }: CareFacts): Factor {
  if (findings === null) return untold(2, 1, 3, "never surveyed");
  if (findings.some(({ activity, severity }) => activity === "active" && severity > 0)) return told(3, "damage goes on");
  if (findings.some(({ activity, severity }) => activity === "not-known" && severity > 0))
    return untold(2, 1, 3, "not known whether damage goes on");
  return told(1, findings.length === 0 ? "no damage found" : "damage is stable");
}

function significanceOf({ significance }: CareFacts): Factor {
  return significance === null ? untold(3, 1, 5, "not judged") : told(significance, `${significance} of 5`);
}

/** Shares of time outside that part the scores (own). */
const SELDOM = 0.05;
const OFTEN = 0.25;

/** 1 where the place keeps within its limit, 2 where it is seldom outside, 3 where it often is or mould could grow. */
export function climateFactor(climate: CareFacts["climate"]): Factor {
  if (!climate.known) return untold(2, 1, 3, climate.reason);
  const { outsideShare, unknownShare, mouldDays } = climate.value;
  const because = `outside its limit ${percent(outsideShare)} of the time${mouldDays ? `, mould could grow on ${mouldDays} ${mouldDays === 1 ? "day" : "days"}` : ""}`;
  if (outsideShare > OFTEN || (mouldDays ?? 0) > 0) return told(3, because);
  // the time without readings may have been bad
  const worst = scoreOf(outsideShare + unknownShare);
  const now = scoreOf(outsideShare);
  if (worst === now) return told(now, because);
  return {
    score: Math.max(2, now),
    least: now,
    most: worst,
    because: `${because}, no readings ${percent(unknownShare)} of it`,
    isKnown: false,
  };
}

const scoreOf = (outsideShare: number): number => (outsideShare > OFTEN ? 3 : outsideShare > SELDOM ? 2 : 1);

/** A little is not nothing, and nearly all is not all. */
function percent(share: number): string {
  if (share > 0 && share < 0.005) return "under 1 %";
  if (share < 1 && share >= 0.995) return "over 99 %";
  return `${Math.round(share * 100)} %`;
}
