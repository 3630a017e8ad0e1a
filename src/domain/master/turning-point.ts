import type { AimLimit } from "../aim/aim.ts";
import { MOST_WEIGHT } from "../aim/aim-input.ts";
import { countedRange } from "../aim/limit.ts";
import { describeMeasure } from "../aim/target-measures.ts";
import { MEASURES, type MeasureName } from "../measure/catalogue.ts";
import { isPresent } from "../measure/reading.ts";
import { LEAST, logarithm } from "./advantage.ts";
import type { Ruling, Turn, Verdict } from "./judgement.ts";
import { type Candidate, masterByRule } from "./rule.ts";

/**
 * The smallest change of one reading, and of one weight, with which the rule would choose otherwise.
 *
 * With logarithms of desirability D and weights w, the master stands ahead of the runner-up by S = Σ wᵢ (Dᵢ − Dᵢ′) over the measures that
 * both show. One reading turns it when its own D moves by S / wᵢ; one weight when it becomes wᵢ − S / (Dᵢ − Dᵢ′). A reading of the master
 * may also come to miss a requirement. Each such number is rounded to where it is past the turn as shown, put in, and kept only if the
 * rule, run over all captures, then chooses otherwise. Own working; readings that are facts of the file are left as they are.
 * @returns null where there is no master
 */
export function turningPoint(candidates: readonly Candidate[], aim: readonly AimLimit[], ruling: Ruling): Turn | null {
  const { verdicts, masterId, runnerUpId } = ruling;
  const limits = aim.filter((limit) => limit.provedBy === "print");
  const master = verdicts.find(({ captureId }) => captureId === masterId);
  if (!master) return null;
  const runnerUp = verdicts.find(({ captureId }) => captureId === runnerUpId);
  const turnsWith = (changed: readonly Candidate[], by = limits) => masterByRule(changed, by) !== masterId;
  const reading = readingChanges(limits, ruling, master).find(({ captureId, measure, to }) =>
    turnsWith(candidates.map((candidate) => (candidate.captureId === captureId ? withReading(candidate, measure, to) : candidate))),
  );
  const weight = runnerUp
    ? weightChanges(limits, master, runnerUp).find(({ measure, to }) =>
        turnsWith(
          candidates,
          limits.map((limit) => (limit.measure === measure ? { ...limit, weight: to } : limit)),
        ),
      )
    : undefined;
  return {
    reading: reading ? { captureId: reading.captureId, measure: reading.measure, from: reading.from, to: reading.to } : null,
    weight: weight ? { measure: weight.measure, from: weight.from, to: weight.to } : null,
  };
}

type Change = { readonly measure: string; readonly from: number; readonly to: number; readonly size: number };
type ReadingChange = Change & { readonly captureId: number };

/** Every change of one reading that may turn it, the smallest first. */
function readingChanges(limits: readonly AimLimit[], { verdicts, runnerUpId }: Ruling, master: Verdict): ReadingChange[] {
  const runnerUp = verdicts.find(({ captureId }) => captureId === runnerUpId);
  return [
    ...(runnerUp ? pastEachOther(limits, master, runnerUp) : []),
    ...intoMissing(limits, master),
    ...verdicts.filter((verdict) => verdict !== master).flatMap((other) => intoMeeting(limits, other)),
  ].toSorted((a, b) => a.size - b.size);
}

/** The master's reading gets so much worse, or the runner-up's so much better, that the lead is gone. */
function pastEachOther(limits: readonly AimLimit[], master: Verdict, runnerUp: Verdict): ReadingChange[] {
  const lead = leadOf(limits, master, runnerUp);
  return limits.flatMap((limit, index) => {
    if (limit.weight === 0 || differenceIn(limit, index, master, runnerUp) === null) return [];
    return [
      { of: master, better: -1 },
      { of: runnerUp, better: 1 },
    ].flatMap(({ of, better }) => {
      const from = of.measures[index]?.value as number;
      const turnsAt = valueAt(limit, from, logarithm(limit, from) + (better * lead) / limit.weight);
      if (turnsAt === null) return [];
      const isUpwards = turnsAt === from ? (limit.sense === "at-most") === better < 0 : turnsAt > from;
      return changeOf(limit, of, from, past(turnsAt, isUpwards, decimalsOf(limit)));
    });
  });
}

const intoMissing = (limits: readonly AimLimit[], master: Verdict): ReadingChange[] =>
  limits.flatMap((limit, index) => {
    const from = master.measures[index]?.value ?? null;
    if (from === null) return [];
    return [
      ...(limit.requiredAtLeast === null ? [] : changeOf(limit, master, from, past(limit.requiredAtLeast, false, decimalsOf(limit)))),
      ...(limit.requiredAtMost === null ? [] : changeOf(limit, master, from, past(limit.requiredAtMost, true, decimalsOf(limit)))),
    ];
  });

/** A capture that misses one requirement alone comes to meet it. */
function intoMeeting(limits: readonly AimLimit[], { shortfalls, ...other }: Verdict): ReadingChange[] {
  const [only, another] = shortfalls;
  const limit = limits.find(({ measure }) => measure === only?.measure);
  if (!only || another || !limit || only.value === null) return [];
  return changeOf(limit, other, only.value, only.required);
}

/** Facts of the file are no readings: they do not change. Nor does anything that an aim asks for fall below nothing. */
const changeOf = (limit: AimLimit, { captureId }: Pick<Verdict, "captureId">, from: number, to: number): ReadingChange[] =>
  isFactOfFile(limit.measure) || to < 0
    ? []
    : [{ captureId, measure: limit.measure, from, to, size: Math.abs(to - from) / (countedRange(limit) || 1) }];

/** Every change of one weight that may turn it, the smallest ratio first; a weight of nothing comes last. */
function weightChanges(limits: readonly AimLimit[], master: Verdict, runnerUp: Verdict): Change[] {
  const lead = leadOf(limits, master, runnerUp);
  return limits
    .flatMap((limit, index) => {
      const difference = differenceIn(limit, index, master, runnerUp);
      if (difference === null || difference === 0 || limit.weight === 0) return [];
      const turnsAt = limit.weight - lead / difference;
      const to = Math.max(0, past(turnsAt, difference < 0, 1));
      if (turnsAt < 0 || to > MOST_WEIGHT) return [];
      return [{ measure: limit.measure, from: limit.weight, to, size: Math.abs(Math.log(to / limit.weight)) }];
    })
    .toSorted((a, b) => a.size - b.size);
}

const leadOf = (limits: readonly AimLimit[], master: Verdict, runnerUp: Verdict): number =>
  limits.reduce((total, limit, index) => total + limit.weight * (differenceIn(limit, index, master, runnerUp) ?? 0), 0);

function differenceIn(limit: AimLimit, index: number, one: Verdict, other: Verdict): number | null {
  const [ours, theirs] = [one, other].map((verdict) => verdict.measures[index]?.value ?? null);
  return ours == null || theirs == null ? null : logarithm(limit, ours) - logarithm(limit, theirs);
}

/** The value whose logarithm of desirability is the one given, on the side of the best where `near` lies; null where there is none. */
function valueAt({ sense, lowest, best, highest }: AimLimit, near: number, logarithm: number): number | null {
  if (logarithm > 0 || logarithm < Math.log(LEAST)) return null;
  const end = sense === "at-least" ? lowest : sense === "at-most" ? highest : near < best ? lowest : highest;
  return end === null ? null : end + Math.exp(logarithm) * (best - end);
}

/** The first number past a turn that a screen can show with so many decimals. */
function past(turnsAt: number, isUpwards: boolean, decimals: number): number {
  const steps = turnsAt * 10 ** decimals;
  // a number that lies on a step is not past it yet
  const to = isUpwards ? Math.floor(steps + 1e-9) + 1 : Math.ceil(steps - 1e-9) - 1;
  return Number((to / 10 ** decimals).toFixed(decimals));
}

const decimalsOf = ({ measure }: AimLimit): number => describeMeasure(measure)?.decimals ?? 2;

const isFactOfFile = (measure: string): boolean => MEASURES[measure as MeasureName]?.region === "file";

function withReading(candidate: Candidate, measure: string, value: number): Candidate {
  const reading = candidate.readings.get(measure);
  return isPresent(reading) ? { ...candidate, readings: new Map([...candidate.readings, [measure, { ...reading, value }]]) } : candidate;
}
