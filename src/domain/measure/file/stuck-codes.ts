import type { Picture } from "../picture.ts";
import type { RowSpans } from "../planes/row-spans.ts";
import { codeHistograms } from "./code-histograms.ts";

/** Per channel R, G, B: the code from which on values count as stuck; null where none is in use. */
export type StuckCodes = {
  readonly highlights: readonly (number | null)[];
  readonly shadows: readonly (number | null)[];
};

/** How far from the end of the scale a last code in use may lie and still be one where values are stuck. */
const NEAR_END_SHARE = 0.06;
/** A pile: so many times more pixels than in each of the next five codes in use, on average. */
const PILE = 4;
/** Outermost pixels that may be stray ones, share of all and at least so many. */
const STRAY_SHARE = 2e-5;
const STRAY_PX = 4;
const LEAST_PILE_PX = 64;
/** Codes of 8 bits over which lossy compression spreads an end. */
const RIPPLE = 2;

export function stuckCodes(picture: Picture, spans: RowSpans, isLossy: boolean): StuckCodes {
  const { maxCode } = picture;
  const histograms = codeHistograms(picture, spans);
  const maySpread = isLossy && maxCode === 255;
  return {
    highlights: histograms.map((histogram) => {
      const steps = stuckFrom(histogram.slice().reverse(), maySpread);
      return steps === null ? null : maxCode - steps;
    }),
    shadows: histograms.map((histogram) => stuckFrom(histogram, maySpread)),
  };
}

/** For a histogram read from its end inwards: up to which step values are stuck. */
function stuckFrom(fromEnd: Uint32Array, maySpread: boolean): number | null {
  const total = fromEnd.reduce((sum, count) => sum + count, 0);
  if ((fromEnd[0] as number) > 0) {
    const spread = maySpread && meanOf(fromEnd.slice(0, RIPPLE + 1)) > PILE * meanOf(nextInUse(fromEnd, RIPPLE));
    return spread ? RIPPLE : 0;
  }
  const stray = Math.max(STRAY_PX, STRAY_SHARE * total);
  let seen = 0;
  let code = -1;
  while (seen < stray && ++code < fromEnd.length) seen += fromEnd[code] as number;
  if (code > NEAR_END_SHARE * fromEnd.length) return null;
  const pile = fromEnd[code] as number;
  return pile >= LEAST_PILE_PX && pile > PILE * meanOf(nextInUse(fromEnd, code)) ? code : null;
}

/** Counts of the next five codes in use beyond a step: in a 12-bit file most codes of 16 bits are empty. */
function nextInUse(fromEnd: Uint32Array, step: number): number[] {
  const counts: number[] = [];
  for (let code = step + 1; code < fromEnd.length && counts.length < 5; code++)
    if ((fromEnd[code] as number) > 0) counts.push(fromEnd[code] as number);
  return counts;
}

const meanOf = (values: ArrayLike<number>): number => {
  let sum = 0;
  for (let index = 0; index < values.length; index++) sum += values[index] as number;
  return values.length === 0 ? 0 : sum / values.length;
};
