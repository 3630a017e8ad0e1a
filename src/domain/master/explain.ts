import type { AimLimit } from "../aim/aim.ts";
import { boundInWords, measureInWords, valuesApart } from "../aim/measure-words.ts";
import { advantage, loudestFor, type Part } from "./advantage.ts";
import { dominates } from "./dominates.ts";
import type { Judgement, Shortfall, Verdict } from "./judgement.ts";
import { isLeftOpen, shortfallInWords } from "./requirements.ts";

/** What speaks for the runner-up is said when it weighs at least this share of what decided (own choice). */
const WORTH_SAYING = 0.2;

/** Follows what was read, where it is too close to call: the reading stands, and is doubted. */
const UNSURE = " That is too close to call: what was read is not sure enough.";

/** One plain sentence: why the master beats the runner-up, or which requirement nobody met. */
export function explain(judgement: Judgement, aim: readonly AimLimit[]): string {
  const limits = aim.filter((limit) => limit.provedBy === "print");
  const find = (id: number | null) => judgement.verdicts.find((verdict) => verdict.captureId === id) ?? null;
  const master = find(judgement.masterId);
  if (!master) return `${whyNone(find(judgement.bestId), judgement.verdicts.length)}${judgement.closeCall ? UNSURE : ""}`;
  const runnerUp = find(judgement.runnerUpId);
  if (!runnerUp) return `${whyAlone(master, limits, judgement.verdicts.length)}${judgement.closeCall ? UNSURE : ""}`;
  return [whyBetter(master, runnerUp, limits, judgement.closeCall), asFarAsCanBeTold(master, limits)].filter(Boolean).join(" ");
}

function whyNone(best: Verdict | null, count: number): string {
  if (!best) return "There is no capture to choose from.";
  const short = shortfallsInWords(best);
  return count === 1
    ? `${best.fileName} is the only capture, and cannot be master: ${short}.`
    : `None of ${count} captures meets every requirement; the best file that exists is ${best.fileName}, but ${short}.`;
}

/**
 * Where one thing hides everything, such as a file that is gone, it is said once; and so is what hides several measures.
 * Of a reason its first sentence stands here: what to do about it is told where each requirement has its own line.
 */
function shortfallsInWords({ shortfalls }: Verdict): string {
  const [first] = shortfalls;
  const isAllHidden =
    first && shortfalls.length > 1 && shortfalls.every(({ value, notShown }) => value === null && notShown === first.notShown);
  if (isAllHidden && first.notShown !== null) return first.notShown;
  const hiddenAlike: Shortfall[][] = [];
  for (const each of shortfalls) {
    const reason = inShort(each.notShown);
    const alike = reason === null ? undefined : hiddenAlike.find(([one]) => one && inShort(one.notShown) === reason);
    if (alike) alike.push(each);
    else hiddenAlike.push([each]);
  }
  return inOneLine(hiddenAlike.map(hiddenAlikeInWords));
}

/** @param alike one shortfall, or several that one reason hides */
function hiddenAlikeInWords(alike: readonly Shortfall[]): string {
  const [first, ...others] = alike.map((each) => ({ ...each, notShown: inShort(each.notShown) }));
  if (!first) return "";
  if (others.length === 0) return shortfallInWords(first);
  return `${inOneLine(alike.map(({ measure }) => measureInWords(measure)))} are not shown (${first.notShown})`;
}

const inShort = (reason: string | null) => reason?.replace(/\.\s.*$/s, "") ?? null;

/** Of what is required of it only a bound is known, which leaves open whether it is met; each with that bound. */
function leftOpen(master: Verdict, limits: readonly AimLimit[]): string[] {
  return limits.flatMap((limit, index) => {
    const measured = master.measures[index];
    if (!measured || measured.value === null || !isLeftOpen(limit, measured)) return [];
    return [`${measureInWords(limit.measure)} (${boundInWords(limit.measure, measured.value, measured.bound)})`];
  });
}

function asFarAsCanBeTold(master: Verdict, limits: readonly AimLimit[]): string {
  const open = leftOpen(master, limits);
  return open.length === 0 ? "" : `It falls short of no requirement, as far as can be told: only a bound is known of ${inOneLine(open)}.`;
}

function whyAlone(master: Verdict, limits: readonly AimLimit[], count: number): string {
  const open = leftOpen(master, limits);
  const only = count === 1 ? "the only capture, and" : `the only one of ${count} captures that`;
  return open.length === 0
    ? `${master.fileName} is ${only} meets every requirement.`
    : `${master.fileName} is ${only} falls short of no requirement, as far as can be told: only a bound is known of ${inOneLine(open)}.`;
}

function whyBetter(master: Verdict, runnerUp: Verdict, limits: readonly AimLimit[], closeCall: boolean): string {
  const ahead = advantage(master, runnerUp, limits);
  const { value, parts } = ahead;
  const loudest = loudestFor(ahead);
  const against = parts.findLast((part) => part.isToldApart && -part.weighs > WORTH_SAYING * (loudest?.weighs ?? 0));
  if (!loudest) return whyAlike(master, runnerUp, limits, value);
  const why = `${measureInWords(loudest.measure)} ${versus(loudest)}`;
  if (closeCall)
    return `Too close to call: ${master.fileName} and ${runnerUp.fileName} differ by less than their readings are sure of; ${master.fileName} stands for its ${why}.`;
  if (dominates(master, runnerUp, limits))
    return `${master.fileName} is at least as good as ${runnerUp.fileName} in everything that was read, and better above all in ${why}.`;
  if (value <= 0) return `${master.fileName} loses least when all are compared; against ${runnerUp.fileName} it is better in ${why}.`;
  const although = against
    ? `, although ${runnerUp.fileName} is better in ${measureInWords(against.measure)} ${versus(against, true)}`
    : "";
  return `${master.fileName} beats ${runnerUp.fileName} above all in ${why}${although}.`;
}

/** Nothing speaks for the master: both are as good as they need be, or they share no measure. */
function whyAlike(master: Verdict, runnerUp: Verdict, limits: readonly AimLimit[], value: number): string {
  if (value < 0) return `${master.fileName} loses least when every two captures are compared.`;
  if (dominates(master, runnerUp, limits))
    return `${master.fileName} and ${runnerUp.fileName} are both as good as they need be; ${master.fileName} stands, because it is nowhere worse.`;
  return `${master.fileName} and ${runnerUp.fileName} are alike in all that counts and that both show, so either would do; ${master.fileName} stands.`;
}

function versus(part: Part, turned = false): string {
  const [one, other] = valuesApart(part.measure, part.one, part.other);
  return turned ? `(${other} against ${one})` : `(${one} against ${other})`;
}

function inOneLine(parts: readonly string[]): string {
  if (parts.length < 2) return parts[0] ?? "";
  return `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}`;
}
