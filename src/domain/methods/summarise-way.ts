import type { AimLimit } from "../aim/aim.ts";
import { type Share, shareWithInterval } from "../condition/sampling.ts";
import { median, quantile } from "../measure/numbers/robust.ts";
import { minutesBetweenPrints } from "../plan/time-and-cost.ts";
import { type CostPerPrint, costPerPrint, type Price } from "./cost-per-print.ts";
import type { JudgedCapture } from "./way.ts";

export type WaySummary = {
  readonly way: string;
  readonly captures: number;
  readonly prints: number;
  /** prints whose first capture this way, of the front where there is one, meets every requirement, with the 95 % interval of Wilson */
  readonly meets: Share & { readonly count: number };
  readonly minutes: Pace;
  readonly cost: CostPerPrint;
  readonly measures: readonly Spread[];
};

/** Minutes from one print to the next, or why the files do not tell. */
export type Pace = { readonly minutes: number; readonly steps: number } | { readonly absent: string };

/** Of all captures made this way: a quarter lies below `low`, half below `middle`, three quarters below `high`. */
export type Spread = {
  readonly measure: string;
  readonly count: number;
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  readonly hasBounds: boolean;
};

/** What one way of capturing reached, whatever prints it was used on. Not a comparison: each way had its own prints. */
export function summariseWay(
  way: string,
  all: readonly JudgedCapture[],
  limits: readonly AimLimit[],
  priceOf: ReadonlyMap<number, Price>,
): WaySummary {
  const captures = all.filter((capture) => capture.way === way);
  const prints = new Set(captures.map(({ printId }) => printId)).size;
  const firsts = firstOfEachPrint(captures);
  const met = firsts.filter(({ meets }) => meets).length;
  return {
    way,
    captures: captures.length,
    prints,
    meets: { count: met, ...shareWithInterval({ seen: met, looked: prints, population: null, confidencePercent: 95 }) },
    minutes: paceOf(firsts.flatMap(({ takenAt }) => takenAt ?? [])),
    cost: costPerPrint(captures, priceOf),
    measures: limits.flatMap(({ measure }) => spread(measure, captures) ?? []),
  };
}

/** The first capture of the front, and of the back only where a print has no other: as the pairs are made. */
function firstOfEachPrint(captures: readonly JudgedCapture[]): JudgedCapture[] {
  const firsts = new Map<number, JudgedCapture>();
  for (const side of ["front", "back"] as const)
    for (const capture of captures) if (capture.side === side && !firsts.has(capture.printId)) firsts.set(capture.printId, capture);
  return [...firsts.values()];
}

function paceOf(takenAt: readonly string[]): Pace {
  if (takenAt.length === 0) return { absent: "no file says when it was taken" };
  return minutesBetweenPrints(takenAt) ?? { absent: "fewer than five prints were taken within half an hour of the one before" };
}

function spread(measure: string, captures: readonly JudgedCapture[]): Spread | null {
  const read = captures.flatMap(({ values }) => values.get(measure) ?? []);
  if (read.length === 0) return null;
  const values = read.map(({ value }) => value);
  const [low, middle, high] = [quantile(values, 0.25), median(values), quantile(values, 0.75)];
  return { measure, count: read.length, low, middle, high, hasBounds: read.some(({ bound }) => bound !== null) };
}
