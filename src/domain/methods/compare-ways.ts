import type { AimLimit } from "../aim/aim.ts";
import { median } from "../measure/robust.ts";
import { medianInterval } from "./bootstrap.ts";
import { fewestPairs, holm, signTest } from "./sign-test.ts";
import { countedRange, goodness, type JudgedCapture } from "./way.ts";

/** Chance that is taken for no chance at all. */
export const LEVEL = 0.05;

export type PairedMeasure = {
  readonly measure: string;
  /** sides of prints on which both ways show the measure */
  readonly pairs: number;
  /** of those: the first way is better, the second is, they are alike */
  readonly better: number;
  readonly worse: number;
  readonly alike: number;
  /** first less second, median over the pairs, in the measure's unit */
  readonly difference: number;
  /** 95 % interval of it by resampling; null for fewer pairs than could show anything */
  readonly interval: { readonly low: number; readonly high: number } | null;
  /** the same as shares of the range in which the aim counts the measure, positive where the first way is better */
  readonly gain: { readonly middle: number; readonly low: number; readonly high: number } | null;
  /**
   * of the sign test, made honest for the number of measures asked; null where too few pairs differ to show anything. Those are not
   * counted as asked: R. E. Tarone, Biometrics 46, 1990, 515–522 (from memory)
   */
  readonly chance: number | null;
  readonly verdict: "first" | "second" | "not told";
  /** some values are only bounds of the true one */
  readonly hasBounds: boolean;
};

export type WaysCompared = {
  /** sides of prints captured both ways */
  readonly pairs: number;
  readonly measures: readonly PairedMeasure[];
  /** both meet the requirements, only one does, neither does */
  readonly meets: { readonly both: number; readonly firstOnly: number; readonly secondOnly: number; readonly neither: number };
  readonly meetsChance: number | null;
};

/**
 * Two ways of capturing on the same prints. A way that captured a side several times stands for it with the median of its readings; a
 * difference counts only where sign test and interval both say so.
 */
export function compareWays(all: readonly JudgedCapture[], first: string, second: string, limits: readonly AimLimit[]): WaysCompared {
  const sides = pairedSides(all, first, second);
  const paired = limits.flatMap((limit) => pairMeasure(sides, limit) ?? []);
  const chances = holm(paired.flatMap(({ rawChance }) => rawChance ?? []));
  let next = 0;
  const measures = paired.map(({ rawChance, ...rest }): PairedMeasure => {
    const chance = rawChance === null ? null : (chances[next++] ?? 1);
    return { ...rest, chance, verdict: verdictOf(rest, chance) };
  });
  return { pairs: sides.length, measures, ...meetsOf(sides) };
}

type Side = { readonly first: readonly JudgedCapture[]; readonly second: readonly JudgedCapture[] };

function pairedSides(all: readonly JudgedCapture[], first: string, second: string): Side[] {
  const sides = new Map<string, { first: JudgedCapture[]; second: JudgedCapture[] }>();
  for (const capture of all) {
    if (capture.way !== first && capture.way !== second) continue;
    const key = `${capture.printId} ${capture.side}`;
    const side = sides.get(key) ?? { first: [], second: [] };
    side[capture.way === first ? "first" : "second"].push(capture);
    sides.set(key, side);
  }
  return [...sides.values()].filter((side) => side.first.length > 0 && side.second.length > 0);
}

type Raw = Omit<PairedMeasure, "chance" | "verdict"> & { readonly rawChance: number | null };

function pairMeasure(sides: readonly Side[], limit: AimLimit): Raw | null {
  const pairs = sides.flatMap((side) => {
    const [a, b] = [side.first, side.second].map((captures) => captures.flatMap(({ values }) => values.get(limit.measure) ?? []));
    if (!a || !b || a.length === 0 || b.length === 0) return [];
    return [
      {
        a: median(a.map(({ value }) => value)),
        b: median(b.map(({ value }) => value)),
        isBound: [...a, ...b].some(({ isBound }) => isBound),
      },
    ];
  });
  if (pairs.length === 0) return null;
  const gains = pairs.map(({ a, b }) => goodness(limit, a) - goodness(limit, b));
  const differences = pairs.map(({ a, b }) => a - b);
  const better = gains.filter((gain) => gain > 0).length;
  const worse = gains.filter((gain) => gain < 0).length;
  const isEnough = pairs.length >= fewestPairs(LEVEL);
  const range = countedRange(limit);
  const gainInterval = isEnough ? medianInterval(gains, 1 - LEVEL) : null;
  return {
    measure: limit.measure,
    pairs: pairs.length,
    better,
    worse,
    alike: pairs.length - better - worse,
    difference: median(differences),
    interval: isEnough ? medianInterval(differences, 1 - LEVEL) : null,
    gain:
      gainInterval && range > 0 ? { middle: median(gains) / range, low: gainInterval.low / range, high: gainInterval.high / range } : null,
    rawChance: better + worse >= fewestPairs(LEVEL) ? signTest(better, worse) : null,
    hasBounds: pairs.some(({ isBound }) => isBound),
  };
}

function verdictOf({ gain, better, worse }: Omit<Raw, "rawChance">, chance: number | null): PairedMeasure["verdict"] {
  if (chance === null || gain === null || chance > LEVEL) return "not told";
  if (gain.low > 0 && better > worse) return "first";
  return gain.high < 0 && worse > better ? "second" : "not told";
}

/** A side meets the aim by a way where any of its captures does. Only sides where the ways differ speak (McNemar's test, exact form). */
function meetsOf(sides: readonly Side[]): Pick<WaysCompared, "meets" | "meetsChance"> {
  const met = sides.map((side) => [side.first, side.second].map((captures) => captures.some(({ meets }) => meets)));
  const count = (first: boolean, second: boolean) => met.filter(([a, b]) => a === first && b === second).length;
  const meets = { both: count(true, true), firstOnly: count(true, false), secondOnly: count(false, true), neither: count(false, false) };
  const isEnough = meets.firstOnly + meets.secondOnly >= fewestPairs(LEVEL);
  return { meets, meetsChance: isEnough ? signTest(meets.firstOnly, meets.secondOnly) : null };
}
