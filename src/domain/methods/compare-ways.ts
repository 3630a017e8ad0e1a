import type { AimLimit } from "../aim/aim.ts";
import { countedRange } from "../aim/limit.ts";
import { median, quantile } from "../measure/numbers/robust.ts";
import { medianInterval } from "./bootstrap.ts";
import { fewestPairs, holm, signTest } from "./sign-test.ts";
import { goodness, type JudgedCapture } from "./way.ts";

/** Chance that is taken for no chance at all. */
export const LEVEL = 0.05;

export type PairedMeasure = {
  readonly measure: string;
  /** prints on which both ways show the measure, and bounds leave open which is larger on none of them */
  readonly pairs: number;
  /** of those: the first way is better, the second is, they are alike */
  readonly better: number;
  readonly worse: number;
  readonly alike: number;
  /** first less second, median over the pairs, in the measure's unit */
  readonly difference: number;
  /** a quarter of the differences lies below `low`, a quarter above `high` */
  readonly middleHalf: { readonly low: number; readonly high: number };
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
  /** prints captured both ways */
  readonly pairs: number;
  readonly measures: readonly PairedMeasure[];
  /** by their first captures: both meet the requirements, only one does, neither does */
  readonly meets: { readonly both: number; readonly firstOnly: number; readonly secondOnly: number; readonly neither: number };
  /** a question of its own, asked once: not made honest for the number of measures */
  readonly meetsChance: number | null;
};

/**
 * Two ways of capturing on the same prints, one side of each: the front where both captured it, else the back. A way that captured the
 * side several times stands for it with the median of its readings; a difference counts only where sign test and interval both say so.
 */
export function compareWays(all: readonly JudgedCapture[], first: string, second: string, limits: readonly AimLimit[]): WaysCompared {
  const sides = pairedSides(all, first, second);
  const paired = limits.flatMap((limit) => pairMeasure(sides, limit) ?? []);
  const chances = holm(paired.flatMap(({ rawChance }) => rawChance ?? []));
  let next = 0;
  const measures = paired.map(({ rawChance, rawGain, ...rest }): PairedMeasure => {
    const chance = rawChance === null ? null : (chances[next++] ?? 1);
    return { ...rest, chance, verdict: verdictOf(rest, rawGain, chance) };
  });
  return { pairs: sides.length, measures, ...meetsOf(sides) };
}

type Side = { readonly first: readonly JudgedCapture[]; readonly second: readonly JudgedCapture[] };

function pairedSides(all: readonly JudgedCapture[], first: string, second: string): Side[] {
  const sides = new Map<string, { printId: number; isFront: boolean; first: JudgedCapture[]; second: JudgedCapture[] }>();
  for (const capture of all) {
    if (capture.way !== first && capture.way !== second) continue;
    const { printId, side: which } = capture;
    const side = sides.get(`${printId} ${which}`) ?? { printId, isFront: which === "front", first: [], second: [] };
    side[capture.way === first ? "first" : "second"].push(capture);
    sides.set(`${printId} ${which}`, side);
  }
  const paired = [...sides.values()].filter((side) => side.first.length > 0 && side.second.length > 0);
  const withFront = new Set(paired.filter(({ isFront }) => isFront).map(({ printId }) => printId));
  return paired.filter(({ isFront, printId }) => isFront || !withFront.has(printId));
}

type Interval = { readonly low: number; readonly high: number };
type Raw = Omit<PairedMeasure, "chance" | "verdict"> & { readonly rawChance: number | null; readonly rawGain: Interval | null };
type Value = { readonly value: number; readonly bound: "lower" | "upper" | null };

function pairMeasure(sides: readonly Side[], limit: AimLimit): Raw | null {
  const pairs = sides.flatMap((side) => {
    const [a, b] = [side.first, side.second].map((captures) => middleOf(captures.flatMap(({ values }) => values.get(limit.measure) ?? [])));
    return a && b && isOrdered(a, b) ? [{ a, b }] : [];
  });
  if (pairs.length === 0) return null;
  const differences = pairs.map(({ a, b }) => a.value - b.value);
  const gains = pairs.map(({ a, b }) => goodness(limit, a.value) - goodness(limit, b.value));
  const better = gains.filter((gain) => gain > 0).length;
  const worse = gains.filter((gain) => gain < 0).length;
  const interval = pairs.length >= fewestPairs(LEVEL) ? medianInterval(differences, 1 - LEVEL) : null;
  const rawGain = interval && gainOf(limit, interval, gains);
  const range = countedRange(limit);
  return {
    measure: limit.measure,
    pairs: pairs.length,
    better,
    worse,
    alike: pairs.length - better - worse,
    difference: median(differences),
    middleHalf: { low: quantile(differences, 0.25), high: quantile(differences, 0.75) },
    interval,
    gain: rawGain && range > 0 ? { middle: median(gains) / range, low: rawGain.low / range, high: rawGain.high / range } : null,
    rawGain,
    rawChance: better + worse >= fewestPairs(LEVEL) ? signTest(better, worse) : null,
    hasBounds: pairs.some(({ a, b }) => a.bound !== null || b.bound !== null),
  };
}

/** The median of several readings; a bound where any of them is one. */
function middleOf(values: readonly Value[]): Value | null {
  if (values.length === 0) return null;
  return { value: median(values.map(({ value }) => value)), bound: values.find(({ bound }) => bound !== null)?.bound ?? null };
}

/**
 * False where bounds leave open which is larger. Two bounds of one kind are taken as they are: the same method read them on the same
 * print, and whether it hides more by one way than by the other is told as a doubt.
 */
function isOrdered(a: Value, b: Value): boolean {
  if (a.bound === b.bound) return true;
  const [larger, smaller] = a.value >= b.value ? [a, b] : [b, a];
  return larger.bound !== "upper" && smaller.bound !== "lower";
}

/** Less is better turns the interval round; only a middle that is best needs one of its own. */
function gainOf({ sense }: AimLimit, { low, high }: Interval, gains: readonly number[]): Interval {
  if (sense === "at-least") return { low, high };
  return sense === "at-most" ? { low: -high, high: -low } : medianInterval(gains, 1 - LEVEL);
}

function verdictOf(
  { better, worse }: Pick<Raw, "better" | "worse">,
  gain: Interval | null,
  chance: number | null,
): PairedMeasure["verdict"] {
  if (chance === null || gain === null || chance > LEVEL) return "not told";
  if (gain.low > 0 && better > worse) return "first";
  return gain.high < 0 && worse > better ? "second" : "not told";
}

/**
 * Whether the first capture each way meets the aim, so that a way with more tries has no better chance. Only prints on which the ways
 * differ speak (McNemar's test, exact form).
 */
function meetsOf(sides: readonly Side[]): Pick<WaysCompared, "meets" | "meetsChance"> {
  const met = sides.map((side) => [side.first, side.second].map(([capture]) => capture?.meets === true));
  const count = (first: boolean, second: boolean) => met.filter(([a, b]) => a === first && b === second).length;
  const meets = { both: count(true, true), firstOnly: count(true, false), secondOnly: count(false, true), neither: count(false, false) };
  const isEnough = meets.firstOnly + meets.secondOnly >= fewestPairs(LEVEL);
  return { meets, meetsChance: isEnough ? signTest(meets.firstOnly, meets.secondOnly) : null };
}
