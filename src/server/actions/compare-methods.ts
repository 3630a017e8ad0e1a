import type { Aim } from "#domain/aim/aim.ts";
import { METHOD_LABELS } from "#domain/capture/method.ts";
import { compareWays, type WaysCompared } from "#domain/methods/compare-ways.ts";
import type { Price } from "#domain/methods/cost-per-print.ts";
import { effortAgainst } from "#domain/methods/effort-in-words.ts";
import { summariseWay, type WaySummary } from "#domain/methods/summarise-way.ts";
import { verdictInWords, whatTheDataCannotTell } from "#domain/methods/verdict-in-words.ts";
import type { JudgedCapture, WaysBy } from "#domain/methods/way.ts";
import { currentAims } from "#drizzle/queries/aims.ts";
import { judgedCaptures } from "#drizzle/queries/judged-captures.ts";
import { listSetUps } from "#drizzle/queries/set-ups.ts";
import type { Context } from "../context.ts";

export type MethodsAsked = {
  readonly purposeKey: string | null;
  readonly by: WaysBy;
  /** keys of the two ways to pair; null: the two with the most prints in common */
  readonly first: string | null;
  readonly second: string | null;
};

export type MethodsCompared = {
  readonly aim: Aim;
  readonly by: WaysBy;
  readonly ways: readonly (WaySummary & { readonly name: string })[];
  /** captures that say neither method nor set-up */
  readonly unnamed: number;
  readonly pair: { readonly first: string; readonly second: string; readonly compared: WaysCompared } | null;
  readonly verdict: readonly string[];
  readonly cannotTell: readonly string[];
};

/** Which way of capturing is worth the trouble, from the captures that the collection holds. Changes nothing. */
export function compareMethods(context: Context, asked: MethodsAsked): MethodsCompared {
  const aims = currentAims(context.db);
  const aim = aims.find(({ purpose }) => purpose.key === asked.purposeKey) ?? aims[0];
  if (!aim) throw new Error("The collection has no aims.");
  const setUps = new Map(listSetUps(context.db).map((setUp) => [String(setUp.id), setUp]));
  const made = judgedCaptures(context.db, aim.purpose.id);
  const captures = made.flatMap(({ method, ...rest }): JudgedCapture[] => {
    const { setUpId } = rest;
    const way = asked.by === "method" ? method : setUpId === null ? null : String(setUpId);
    return way === null ? [] : [{ ...rest, way }];
  });
  const nameOf = (way: string) =>
    asked.by === "method" ? METHOD_LABELS[way as keyof typeof METHOD_LABELS] : (setUps.get(way)?.name ?? "a set-up that is gone");
  const limits = aim.limits.filter(({ provedBy }) => provedBy === "print");
  const priceOf = new Map(
    [...setUps.values()].flatMap(({ id, priceAmount, priceCurrency }): [number, Price][] =>
      priceAmount === null || priceCurrency === null ? [] : [[id, { amount: priceAmount, currency: priceCurrency }]],
    ),
  );
  const keys = [...new Set(captures.map(({ way }) => way))];
  const ways = keys
    .map((way) => ({ ...summariseWay(way, captures, limits, priceOf), name: nameOf(way) }))
    .toSorted((a, b) => b.prints - a.prints || a.name.localeCompare(b.name, "en"));
  const pair = pairAsked(captures, keys, asked);
  const compared = pair && compareWays(captures, pair.first, pair.second, limits);
  const [first, second] = pair ? [pair.first, pair.second].map((key) => ways.find(({ way }) => way === key)) : [];
  const names = pair && { first: inSentence(nameOf(pair.first), asked.by), second: inSentence(nameOf(pair.second), asked.by) };
  const needTarget = aim.limits.filter(({ provedBy }) => provedBy === "target").map(({ measure }) => measure);
  return {
    aim,
    by: asked.by,
    ways,
    unnamed: made.length - captures.length,
    pair: pair && compared && { ...pair, compared },
    verdict: compared && names && first && second ? [...verdictInWords(compared, names), effortAgainst(first, second, names)] : [],
    cannotTell: compared ? whatTheDataCannotTell(compared, needTarget) : [],
  };
}

/** A method is a common noun, a set-up has a name of its own. */
const inSentence = (name: string, by: WaysBy): string => (by === "method" ? name.toLowerCase() : `“${name}”`);

function pairAsked(captures: readonly JudgedCapture[], keys: readonly string[], { first, second }: MethodsAsked) {
  if (first !== null && second !== null && first !== second && keys.includes(first) && keys.includes(second)) return { first, second };
  const sides = new Map(
    keys.map((key) => [key, new Set(captures.filter(({ way }) => way === key).map(({ printId, side }) => `${printId} ${side}`))]),
  );
  const common = (a: string, b: string) => [...(sides.get(a) ?? [])].filter((side) => sides.get(b)?.has(side)).length;
  const pairs = keys.flatMap((a, index) => keys.slice(index + 1).map((b) => ({ first: a, second: b, count: common(a, b) })));
  const [most] = pairs.toSorted((a, b) => b.count - a.count);
  return most ? { first: most.first, second: most.second } : null;
}
