import type { AimLimit } from "../aim/aim.ts";
import type { Verdict } from "./judgement.ts";

type Shows = Pick<Verdict, "measures">;

/**
 * Whether `one` beats `other`: wherever `other` shows anything, `one` shows at least as good, and
 * somewhere better. Showing less never beats showing more, so two captures cannot beat each other
 * in a circle: this is a strict partial order, and among any captures one is unbeaten.
 * @param limits in the order of the verdicts' measures
 */
export function dominates(one: Shows, other: Shows, limits: readonly AimLimit[]): boolean {
  let better = false;
  for (const [index, limit] of limits.entries()) {
    const theirs = other.measures[index]?.value ?? null;
    if (limit.weight === 0 || theirs === null) continue;
    const ours = one.measures[index]?.value ?? null;
    if (ours === null) return false;
    const difference = goodness(limit, ours) - goodness(limit, theirs);
    if (difference < 0) return false;
    if (difference > 0) better = true;
  }
  return better;
}

/** A number that grows with how good a value is, without the ceiling that desirability has. */
function goodness({ sense, lowest, best, highest }: AimLimit, value: number): number {
  if (sense === "at-least") return value;
  if (sense === "at-most") return -value;
  const reach = value < best ? best - (lowest ?? best) : (highest ?? best) - best;
  return -Math.abs(value - best) / (reach || 1);
}
