import type { AimLimit } from "../aim/aim.ts";
import { countedRange } from "../aim/limit.ts";
import { sameExposureAs } from "../measure/file/saved-again.ts";
import { isPresent, type Present, type Reading } from "../measure/reading.ts";
import { seeded } from "../seeded.ts";
import { aheadBy } from "./advantage.ts";
import { dominates } from "./dominates.ts";
import type { Ruling, Shortfall, Verdict } from "./judgement.ts";
import { type Candidate, masterByRule } from "./rule.ts";

// How sure a choice is: propagation of distributions by a Monte Carlo method, JCGM 101:2008 (Supplement 1 to the Guide to the expression of
// uncertainty in measurement), clauses 6.4.7 and 7 (from memory).

/** A choice that fewer chances than this leave as it is, is too close to call (own choice). */
export const SURE_ENOUGH = 0.9;

/** Enough to know a share of 0.9 to ± 0.015 (one standard deviation of a share, √(p (1 − p) / n)). */
const DRAWS = 400;
const SEED = 1980;

/** Captures farther behind have no chance that would be seen in so few draws, and each costs time (own choice). */
const MOST_CONTENDERS = 8;

/** A requirement missed or met by more than this many spreads is not in doubt. */
const IN_DOUBT = 3;

/**
 * How sure an answer of the rule is: every reading is drawn anew from what it may truly be, the whole rule is run again, and the share of
 * draws with the same answer is counted. Readings vary independently, normally, with their spread, one standard uncertainty (reading.ts),
 * as the standard deviation. A fair reading that tells no spread is doubted by a tenth of its value, or of the range in which the aim counts
 * the measure where that is more (own choice); a firm one is taken as it is. Where nothing speaks for either of two, the chance is a half.
 * A copy of the master's own exposure is no other answer: what is read of both errs alike.
 * Always the same numbers for the same readings, in any order.
 * @returns 0 to 1; null where nothing was read that could be judged
 */
export function sureness(candidates: readonly Candidate[], aim: readonly AimLimit[], ruling: Ruling): number | null {
  if (ruling.verdicts.every(({ overall }) => overall === null)) return null;
  const limits = aim.filter((limit) => limit.provedBy === "print");
  const alike = sameExposure(candidates, ruling.masterId);
  if (isTied(ruling, limits) && !alike.has(ruling.runnerUpId)) return 0.5;
  const contenders = contendersOf(candidates, ruling, limits);
  const doubted = contenders.map((candidate) => ({ candidate, readings: doubtedReadings(candidate, limits) }));
  if (doubted.every(({ readings }) => readings.length === 0)) return 1;
  // only what the aim asks for is copied in each draw
  const asked = new Map(contenders.map(({ captureId, readings }) => [captureId, askedOf(readings, limits)]));
  const normal = normalNumbers(SEED);
  let same = 0;
  for (let draw = 0; draw < DRAWS; draw++) {
    const drawn = doubted.map(({ candidate, readings }) => {
      const varied = new Map<string, Reading>(asked.get(candidate.captureId));
      for (const { reading, doubt } of readings) varied.set(reading.name, { ...reading, value: reading.value + normal() * doubt });
      return { ...candidate, readings: varied };
    });
    if (alike.has(masterByRule(drawn, limits))) same++;
  }
  return same / DRAWS;
}

/** The answer itself, and the copies of its exposure. */
function sameExposure(candidates: readonly Candidate[], masterId: number | null): ReadonlySet<number | null> {
  const master = candidates.find(({ captureId }) => captureId === masterId);
  return new Set([masterId, ...sameExposureAs([...(master?.readings.values() ?? [])])]);
}

/** By capture id: the master, those it is least ahead of, and those whose shortfalls are in doubt. */
function contendersOf(candidates: readonly Candidate[], { verdicts, bestId }: Ruling, limits: readonly AimLimit[]): Candidate[] {
  const best = verdicts.find(({ captureId }) => captureId === bestId);
  const behind = (verdict: Verdict | undefined) => (best && verdict && verdict !== best ? aheadBy(best, verdict, limits) : -Infinity);
  return candidates
    .map((candidate) => ({ candidate, verdict: verdicts.find(({ captureId }) => captureId === candidate.captureId) }))
    .filter(({ candidate, verdict }) => verdict?.shortfalls.every((short) => isInDoubt(short, candidate, limits)))
    .toSorted((a, b) => behind(a.verdict) - behind(b.verdict))
    .slice(0, MOST_CONTENDERS)
    .map(({ candidate }) => candidate)
    .toSorted((a, b) => a.captureId - b.captureId);
}

function isInDoubt({ measure, required, value, notShown }: Shortfall, candidate: Candidate, limits: readonly AimLimit[]): boolean {
  const [doubted] = doubtedReadings(
    candidate,
    limits.filter((limit) => limit.measure === measure),
  );
  return value !== null && notShown === null && Math.abs(value - required) <= IN_DOUBT * (doubted?.doubt ?? 0);
}

/** Master and runner-up are alike in all that counts. */
function isTied({ verdicts, masterId, runnerUpId }: Ruling, limits: readonly AimLimit[]): boolean {
  const [master, runnerUp] = [masterId, runnerUpId].map((id) => verdicts.find(({ captureId }) => captureId === id));
  return !!master && !!runnerUp && aheadBy(master, runnerUp, limits) === 0 && !dominates(master, runnerUp, limits);
}

const askedOf = (readings: Candidate["readings"], limits: readonly AimLimit[]): [string, Reading][] =>
  limits.flatMap(({ measure }): [string, Reading][] => {
    const reading = readings.get(measure);
    return reading ? [[measure, reading]] : [];
  });

const doubtedReadings = ({ readings }: Candidate, limits: readonly AimLimit[]): { reading: Present; doubt: number }[] =>
  limits.flatMap((limit) => {
    const reading = readings.get(limit.measure);
    if (!isPresent(reading) || reading.reliability === "weak") return [];
    const doubt = doubtOf(reading, limit);
    return doubt > 0 ? [{ reading, doubt }] : [];
  });

const doubtOf = ({ value, spread, reliability }: Present, limit: AimLimit): number =>
  spread ?? (reliability === "firm" ? 0 : Math.max(Math.abs(value), countedRange(limit)) / 10);

/** Normal numbers of mean 0 and standard deviation 1. Source: G. E. P. Box and M. E. Muller, Annals of Mathematical Statistics 29, 1958, 610–611. */
function normalNumbers(seed: number): () => number {
  const random = seeded(seed);
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
