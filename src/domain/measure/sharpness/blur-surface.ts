import { solve } from "../numbers/least-squares.ts";
import { robustSpread } from "../numbers/robust.ts";
import { addRow, SURFACE_TERMS, sumOf, termsAt } from "../numbers/smooth-surface.ts";
import { evenlyWithin } from "../numbers/standard-uncertainty.ts";
import type { InsideBlur } from "./inside-blur.ts";

/** How blurred one stretch of a side is, across that side. */
export type BlurPlace = {
  /** -1..1 from left to right and from top to bottom of the sheet, as seen */
  readonly u: number;
  readonly v: number;
  /** "across": blur along the rows is read here (upright sides); "down": along the columns */
  readonly direction: "across" | "down";
  readonly of: "sheet" | "picture";
  /** variance of the Gaussian that falls to a half at the same frequency, mm² */
  readonly variance: number;
  /** half-width of what the variance is expected within, as a share of it */
  readonly spreadShare: number;
};

/** Terms of the surface, in this order: those of a smooth surface (see smooth-surface.ts), direction (+1 across, -1 down), of the picture. */
export type BlurTerms = readonly number[];

export type BlurSurface = {
  readonly terms: BlurTerms;
  /** one-sigma uncertainty of any function of the terms, by its slopes */
  readonly spreadOf: (of: (terms: BlurTerms) => number) => number;
};

const COUNT = SURFACE_TERMS + 2;
export const DIRECTION = SURFACE_TERMS;
/** How far each term is thought to lie from 0 at the most, in mean variances, before anything was read: a term that no place tells stays near 0. */
const PRIOR = [100, 5, 5, 2, 2, 2, 5, 5, 0.3];
/** …and the bends, where edges do not read them: content feigns them most. */
const PRIOR_OF_BENDS = 0.3;
const BENDS = [3, 4, 5, 6];
/** Tukey's constant: 95 % efficient for normal errors. */
const TUKEY = 4.685;
const PASSES = 8;

/**
 * Variance of the blur as a smooth function of place. Blurs one behind the other add their variances: a tilted print adds
 * a term that is exactly of second order in place, a curled print one that is nearly so, and a movement the same everywhere
 * in one direction only. So: second-order polynomial + a difference between the directions + a difference between
 * sides of the picture and of the sheet (their own edges differ), by iterated weighted least squares with Tukey's weights.
 *
 * What the picture shows inside joins as a surface of its own with its covariance (see inside-blur.ts), each weighing by its uncertainty:
 * where edges are read all round it adds next to nothing, where they are missing it is what is left. Edges that scatter more than they
 * should count for as much less. Null when neither fixes it.
 */
export function fitBlur(
  places: readonly BlurPlace[],
  inside: Pick<InsideBlur, "level" | "terms" | "information"> | null = null,
): BlurSurface | null {
  if (places.length === 0 && !inside) return null;
  const mean = places.length > 0 ? places.reduce((sum, { variance }) => sum + variance, 0) / places.length : (inside?.level ?? 0);
  const rows = places.map(rowOf);
  const isRimRead = new Set(places.map(({ u, v, direction }) => `${direction} ${direction === "across" ? u > 0 : v > 0}`)).size > 2;
  const priors = PRIOR.map((prior, term) => (!isRimRead && BENDS.includes(term) ? PRIOR_OF_BENDS : prior));
  let terms: number[] | null = [mean, ...new Array<number>(COUNT - 1).fill(0)];
  let matrix: number[] = [];
  let scale = 1;
  let trust = places.map(() => 1);
  for (let pass = 0; pass < PASSES; pass++) {
    const known: readonly number[] = terms;
    const sigmas = places.map(
      ({ spreadShare }, index) => evenlyWithin(spreadShare) * Math.max(0.1 * mean, sumOf(known, rows[index] as number[])),
    );
    matrix = new Array<number>(COUNT * COUNT).fill(0);
    const right = new Array<number>(COUNT).fill(0);
    priors.forEach((prior, i) => {
      matrix[i * COUNT + i] = 1 / (prior * mean) ** 2;
    });
    if (inside) addInside(matrix, right, inside);
    for (let index = 0; index < places.length; index++) {
      const weight = (trust[index] as number) / (scale * (sigmas[index] as number)) ** 2;
      addRow(matrix, right, rows[index] as number[], weight, (places[index] as BlurPlace).variance);
    }
    terms = solve(matrix, right);
    if (!terms) return null;
    const found: readonly number[] = terms;
    const residuals = places.map(({ variance }, index) => (variance - sumOf(found, rows[index] as number[])) / (sigmas[index] as number));
    scale = Math.max(1, robustSpread(residuals, 0));
    trust = residuals.map((residual) => {
      const share = residual / (TUKEY * scale);
      return Math.abs(share) < 1 ? (1 - share * share) ** 2 : 0;
    });
  }
  const fitted = terms;
  return { terms: fitted, spreadOf: (of) => spreadOf(matrix, fitted, mean, of) };
}

function addInside(matrix: number[], right: number[], { terms, information }: Pick<InsideBlur, "terms" | "information">): void {
  for (let i = 0; i < SURFACE_TERMS; i++) {
    for (let j = 0; j < SURFACE_TERMS; j++) {
      const of = information[i * SURFACE_TERMS + j] as number;
      matrix[i * COUNT + j] = (matrix[i * COUNT + j] as number) + of;
      right[i] = (right[i] as number) + of * (terms[j] as number);
    }
  }
}

const rowOf = ({ u, v, direction, of }: BlurPlace): number[] => [
  ...termsAt(u, v),
  direction === "across" ? 1 : -1,
  of === "picture" ? 1 : 0,
];

/** Variance at a place of the sheet, mean of both directions, mm². */
export const varianceAt = (terms: BlurTerms, u: number, v: number): number => sumOf(terms, [...termsAt(u, v), 0, 0]);

/** Square root of gᵀ M⁻¹ g, with g the slopes of a function of the terms. */
function spreadOf(matrix: readonly number[], terms: BlurTerms, mean: number, of: (terms: BlurTerms) => number): number {
  const step = 1e-4 * mean;
  const slopes = terms.map((_, index) => {
    const moved = (by: number) => of(terms.map((value, at) => (at === index ? value + by : value)));
    return (moved(step) - moved(-step)) / (2 * step);
  });
  const solved = solve(matrix, slopes);
  return solved
    ? Math.sqrt(
        Math.max(
          0,
          solved.reduce((sum, value, index) => sum + value * (slopes[index] as number), 0),
        ),
      )
    : Number.POSITIVE_INFINITY;
}
