import type { AimLimit } from "../aim/aim.ts";

type Ends = Pick<AimLimit, "sense" | "lowest" | "best" | "highest">;

/**
 * How desirable a value is: 0 (worthless) to 1 (as good as it need be), straight in between.
 * One-sided for at-least and at-most, two-sided for between; all exponents are 1.
 * Source: Derringer and Suich, Journal of Quality Technology 12 (1980), 214–219; NIST/SEMATECH
 * e-Handbook of Statistical Methods, 5.5.3.2.2.
 */
export function desirability({ sense, lowest, best, highest }: Ends, value: number): number {
  if (value < best) return sense === "at-most" ? 1 : share(value, lowest, best);
  if (value > best) return sense === "at-least" ? 1 : share(value, highest, best);
  return 1;
}

/**
 * Weighted geometric mean of desirabilities: 0 as soon as one that weighs anything is 0; null when nothing weighs.
 * Source: as above; weights as exponents, Derringer, Quality Progress 27 (1994), from memory.
 */
export function overallDesirability(parts: readonly { readonly desirability: number; readonly weight: number }[]): number | null {
  const weighing = parts.filter((part) => part.weight > 0);
  const sum = weighing.reduce((total, part) => total + part.weight, 0);
  if (sum === 0) return null;
  return Math.exp(weighing.reduce((total, part) => total + part.weight * Math.log(part.desirability), 0) / sum);
}

/** Where the far end is missing, everything beyond the best is worthless. */
function share(value: number, worst: number | null, best: number): number {
  if (worst === null || worst === best) return 0;
  return Math.min(1, Math.max(0, (value - worst) / (best - worst)));
}
