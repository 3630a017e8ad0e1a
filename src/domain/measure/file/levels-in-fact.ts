/** How many levels a channel of 16 bits really has, and how that shows. */
export type LevelsInFact =
  /** every code is one that so many bits give when they are widened evenly */
  | { readonly shows: "grid"; readonly bits: number; readonly codes: number }
  /** codes stand apart as evenly as levels do that went through a tone curve after they were widened */
  | { readonly shows: "comb"; readonly bits: number; readonly codes: number; readonly seenShare: number }
  /** the same on so small a part of the scale that no more is told than that it has as many */
  | { readonly shows: "part"; readonly bits: number; readonly codes: number }
  | { readonly shows: "nothing"; readonly codes: number }
  | { readonly shows: "too-few"; readonly codes: number };

/** Fewer are not told: an edit of 8 bits that leaves levels out makes no file of 7. */
const FEWEST_BITS = 8;
const FULL_BITS = 16;
const MOST_CODE = 65535;
/** All on a grid of half the codes by chance: once in a million. */
const FEWEST_CODES = 20;
/** A picture of 16 bits that is plain but for its noise uses more; drawn areas of a few colours do not. */
const PLAIN_CODES = 1024;
/** Gaps that are looked at together, and how many pixels each of their codes must have, so that none is empty by chance. */
const WINDOW = 24;
const FEWEST_PER_CODE = 10;
const FEWEST_WINDOWS = 2;
/** Share of the windows with enough pixels whose gaps must be even. */
const EVEN_WINDOWS = 0.9;
/** Scatter of even gaps: rounding to whole codes, and the bend of a curve within a window. */
const ROUNDING_VARIANCE = 0.3;
const BEND = 0.12;
/** Share of the scale from which on the rest is taken to be like it: then a curve of power 1 / 2.2 misleads by no whole bit. */
const LEAST_SEEN = 0.7;
/** From so wide gaps on, one of two or three steps is told from one step, and counts as levels left out. */
const LEAST_SKIPPED = 6;
/** What a curve may thin out levels where they are seen against where they are not, as bits. */
const CURVE_DOUBT_BITS = 0.25;

/**
 * Reads the levels from which codes of 16 bits are in use.
 *
 * Widened evenly, n bits leave 2^n of the codes, all on one of four grids: shifted up (all codes have one remainder by 2^(16 - n)), scaled by
 * 65535 / (2^n - 1) with rounding or without, or with their own bits repeated below. The fewest bits, 8 at least, whose grid holds every code; 0 and
 * 65535, where values may be stuck, belong to every grid.
 *
 * After a tone curve in 16 bits no grid holds, but levels still stand apart evenly from one to the next, while codes that are in use by chance or
 * as a few plain colours do not: of windows of 24 codes that have 10 pixels each, nine of ten must have gaps of one length, or of one that changes
 * steadily as under a curve. The steps in them, spread over the whole scale, are the levels.
 * @param histogram how many pixels have each of the 65,536 codes
 */
export function levelsInFact(histogram: Uint32Array): LevelsInFact {
  const codes: number[] = [];
  for (let code = 0; code <= MOST_CODE; code++) if ((histogram[code] as number) > 0) codes.push(code);
  if (codes.length < FEWEST_CODES) return { shows: "too-few", codes: codes.length };
  const inner = codes.filter((code) => code > 0 && code < MOST_CODE);
  for (let bits = FEWEST_BITS; bits < FULL_BITS; bits++)
    if (inner.length <= 2 ** bits && isOnGrid(inner, bits)) return { shows: "grid", bits, codes: codes.length };
  return combOf(inner, histogram) ?? { shows: codes.length < PLAIN_CODES ? "too-few" : "nothing", codes: codes.length };
}

function isOnGrid(codes: readonly number[], bits: number): boolean {
  const below = FULL_BITS - bits;
  const step = 2 ** below;
  const remainder = (codes[0] as number) % step;
  const scale = MOST_CODE / (2 ** bits - 1);
  return (
    codes.every((code) => code % step === remainder) ||
    codes.every((code) => Math.round(Math.round(code / scale) * scale) === code) ||
    codes.every((code) => Math.floor(Math.ceil(code / scale) * scale) === code) ||
    codes.every((code) => ((code >> below) << below) + (code >> bits) === code)
  );
}

function combOf(codes: readonly number[], histogram: Uint32Array): LevelsInFact | null {
  const windows: Window[] = [];
  for (let from = 0; from + WINDOW < codes.length; from += WINDOW) {
    let pixels = 0;
    for (let k = 0; k <= WINDOW; k++) pixels += histogram[codes[from + k] as number] as number;
    if (pixels >= FEWEST_PER_CODE * (WINDOW + 1)) windows.push(windowOf(codes, from));
  }
  const even = windows.filter(({ isEven }) => isEven);
  if (even.length < FEWEST_WINDOWS || even.length < EVEN_WINDOWS * windows.length) return null;
  const range = even.reduce((sum, window) => sum + window.range, 0);
  const steps = even.reduce((sum, window) => sum + window.steps, 0);
  const seenShare = range / MOST_CODE;
  const bits = Math.max(FEWEST_BITS, Math.ceil(Math.log2(steps / seenShare) - CURVE_DOUBT_BITS));
  if (bits >= FULL_BITS) return { shows: "nothing", codes: codes.length };
  if (seenShare >= LEAST_SEEN) return { shows: "comb", bits, codes: codes.length, seenShare };
  return { shows: "part", bits: Math.max(FEWEST_BITS, Math.ceil(Math.log2(steps))), codes: codes.length };
}

type Window = { readonly isEven: boolean; readonly range: number; readonly steps: number };

function windowOf(codes: readonly number[], from: number): Window {
  const gaps = Array.from({ length: WINDOW }, (_, k) => (codes[from + k + 1] as number) - (codes[from + k] as number));
  const usual = gaps.toSorted((a, b) => a - b)[WINDOW >> 1] as number;
  const stepsOf = (gap: number) => (usual >= LEAST_SKIPPED ? Math.max(1, Math.round(gap / usual)) : 1);
  const steps = gaps.reduce((sum, gap) => sum + stepsOf(gap), 0);
  const range = (codes[from + WINDOW] as number) - (codes[from] as number);
  const step = range / steps;
  const each = gaps.map((gap) => gap / stepsOf(gap) - step);
  const middle = (WINDOW - 1) / 2;
  // places of a window squared and added up: n (n² - 1) / 12
  const growth = (12 * each.reduce((sum, gap, k) => sum + gap * (k - middle), 0)) / (WINDOW * (WINDOW ** 2 - 1));
  const variance = each.reduce((sum, gap, k) => sum + (gap - growth * (k - middle)) ** 2, 0) / WINDOW;
  return { isEven: variance <= ROUNDING_VARIANCE + (BEND * step) ** 2, range, steps };
}
