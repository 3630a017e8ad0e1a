import type { AimLimit } from "../aim/aim.ts";
import type { Reading } from "../measure/reading.ts";
import { advantage, aheadBy } from "./advantage.ts";
import { overallDesirability } from "./desirability.ts";
import { dominates } from "./dominates.ts";
import type { Ruling, Verdict } from "./judgement.ts";
import { shortfall } from "./requirements.ts";
import { shown } from "./shown.ts";

/** A capture that may become master, with its current readings by measure. */
export type Candidate = {
  readonly captureId: number;
  readonly fileName: string;
  readonly readings: ReadonlyMap<string, Reading>;
};

/**
 * Chooses the master among the captures of one side of a print.
 *
 * 1. A capture that does not meet a requirement, or does not show it, is out.
 * 2. A capture that another one beats (see dominates.ts) is out.
 * 3. Each one left is compared with each other on the measures both show; the master is the one
 *    whose worst comparison is best. Where all show the same measures this is the one with the
 *    highest overall desirability. Ties go to the capture taken in first.
 *
 * What follows: the order of the captures does not matter; a beaten capture is never master, and
 * adding or removing one changes nothing; a master that wins every comparison stays master when
 * one of its measures gets better. Only where captures show different measures can they beat each
 * other in a circle, and there the last does not always hold.
 */
export function rule(candidates: readonly Candidate[], aim: readonly AimLimit[]): Ruling {
  const limits = aim.filter((limit) => limit.provedBy === "print");
  const judged = judgeAll(candidates, limits);
  const passing = judged.filter((verdict) => verdict.shortfalls.length === 0);
  const verdicts = judged.map((verdict) => ({ ...verdict, beatenBy: beaten(verdict, passing, limits) }));
  const master = leader(passing, limits);
  const runnerUp = master && leastBehind(master, passing, limits);
  return {
    masterId: master?.captureId ?? null,
    runnerUpId: runnerUp?.verdict.captureId ?? null,
    bestId: (master ?? nearestToPassing(judged, limits))?.captureId ?? null,
    verdicts,
    needTarget: aim.filter((limit) => limit.provedBy === "target").map((limit) => limit.measure),
  };
}

/** The master by the rule, and nothing of how the others stand: for those who ask many times. */
export function masterByRule(candidates: readonly Candidate[], aim: readonly AimLimit[]): number | null {
  const limits = aim.filter((limit) => limit.provedBy === "print");
  const passing = judgeAll(candidates, limits).filter((verdict) => verdict.shortfalls.length === 0);
  return leader(passing, limits)?.captureId ?? null;
}

const judgeAll = (candidates: readonly Candidate[], limits: readonly AimLimit[]): Verdict[] =>
  candidates.map((candidate) => judge(candidate, limits)).toSorted((a, b) => a.captureId - b.captureId);

function judge({ captureId, fileName, readings }: Candidate, limits: readonly AimLimit[]): Verdict {
  const measures = limits.map((limit) => shown(limit, readings.get(limit.measure)));
  const counting = limits.flatMap(({ weight }, index) => {
    const desirability = measures[index]?.desirability ?? null;
    return desirability === null ? [] : [{ desirability, weight }];
  });
  const shortfalls = limits.flatMap((limit, index) => {
    const measured = measures[index];
    const short = measured ? shortfall(limit, measured) : null;
    return short ? [short] : [];
  });
  return { captureId, fileName, measures, shortfalls, beatenBy: null, overall: overallDesirability(counting) };
}

/** The first taken in of those that beat it, among those that may be master. */
function beaten(verdict: Verdict, passing: readonly Verdict[], limits: readonly AimLimit[]): number | null {
  if (verdict.shortfalls.length > 0) return null;
  return passing.find((other) => dominates(other, verdict, limits))?.captureId ?? null;
}

/** The unbeaten one whose worst comparison with the other unbeaten ones is best; null when there is none. */
function leader(among: readonly Verdict[], limits: readonly AimLimit[]): Verdict | null {
  const unbeaten = among.filter((verdict) => !among.some((other) => dominates(other, verdict, limits)));
  const worstOf = (verdict: Verdict) =>
    Math.min(...unbeaten.filter((other) => other !== verdict).map((other) => aheadBy(verdict, other, limits)));
  const ranked = unbeaten.map((verdict) => ({ verdict, worst: worstOf(verdict) })).toSorted((a, b) => b.worst - a.worst);
  return ranked[0]?.verdict ?? null;
}

/** The one that the master is least ahead of. */
function leastBehind(master: Verdict, among: readonly Verdict[], limits: readonly AimLimit[]) {
  const others = among
    .filter((other) => other !== master)
    .map((verdict) => ({ verdict, behind: advantage(master, verdict, limits) }))
    .toSorted((a, b) => a.behind.value - b.behind.value);
  return others[0] ?? null;
}

function nearestToPassing(judged: readonly Verdict[], limits: readonly AimLimit[]): Verdict | null {
  const fewest = Math.min(...judged.map((verdict) => verdict.shortfalls.length));
  return leader(
    judged.filter((verdict) => verdict.shortfalls.length === fewest),
    limits,
  );
}
