import { median } from "../numbers/robust.ts";
import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { jpegTables } from "./jpeg-tables.ts";

/**
 * Signs that a JPEG was saved twice. Saving rounds each frequency of each block of 8 × 8 px to whole steps; a second save
 * with other steps leaves a beat in how often each whole number occurs. For five low frequencies of the luma (T.81: the
 * terms (0,1), (1,0), (1,1), (0,2), (2,0)), in the file's own steps: how far the counts lie from the mean of their
 * neighbours, corrected for their steady fall, as root mean square in units of their chance scatter; the median of the
 * five. Chance alone gives about 1, photographs saved once up to 1.9, and those saved more finely the second time 3.1 to
 * 22, one in fifty missed; from 3 on it is a hint.
 *
 * Needs: the file's quantisation tables and a few hundred blocks that are neither plain nor clipped. The grid of blocks
 * is looked for, since the picture may have been turned upright or be part of a bed.
 * Not comparable when: the second save was coarser than the first, at the same quality, or after a crop: none of these
 * shows, so a low figure proves nothing.
 * Source: the transform and tables of ITU-T T.81 | ISO/IEC 10918-1, Annex A; the beat is common knowledge of image
 * forensics, the statistic and its limit are own.
 */
export function doubleSave(picture: Picture, _outline: Outline | null, { fileKind, jpegHeader }: MeasureContext): Reading[] {
  const name = "doubleSaveSigma";
  if (fileKind !== "jpeg") return [{ name, absent: "the file is no JPEG" }];
  const tables = jpegHeader && jpegTables(jpegHeader);
  if (!tables) return [{ name, absent: "the file's quantisation tables could not be read" }];
  if (picture.maxCode !== 255) return [{ name, absent: "the file's own codes were not kept" }];
  const grid = findGrid(picture, tables.luminance);
  if (!grid)
    return [{ name, absent: "the blocks of its compression could not be found: its steps are too fine, or it is too plain or too small" }];
  const blocks = blocksOn(picture, grid, MOST_BLOCKS);
  const values = termsOf(blocks, TERMS);
  const signals = TERMS.flatMap(
    (term, index) => signalOf(values[index] as Float64Array, stepOf(tables.luminance, term, grid.isTurned)) ?? [],
  );
  if (signals.length < 3) return [{ name, absent: "too little of the picture is neither plain nor clipped to tell" }];
  const value = median(signals);
  return [
    {
      name,
      value,
      reliability: "weak",
      note:
        value >= HINT_FROM
          ? "It was probably saved as JPEG at least twice, the last time more finely than before."
          : "No sign of a second save, which proves little: a coarser second save, or one after a crop, does not show.",
      detail: { hint: value >= HINT_FROM, blocksTurned: grid.isTurned, blocksFromLeftPx: grid.left, blocksFromTopPx: grid.top },
    },
  ];
}

/** Below it there is no sign of a second save: screens then show no figure, since what is left is chance. */
export const HINT_FROM = 3;
const BLOCK = 8;
/** Vertical and horizontal frequency. */
const TERMS = [
  [0, 1],
  [1, 0],
  [1, 1],
  [0, 2],
  [2, 0],
] as const;
type Term = readonly [down: number, across: number];
/** Fine steps of the lowest terms drown in rounding; somewhat higher ones have coarser steps, which show the grid. */
const GRID_TERMS: readonly Term[] = Array.from({ length: 36 }, (_, at): Term => [Math.floor(at / 6), at % 6]).filter(
  ([down, across]) => down + across >= 1 && down + across <= 5,
);
const LEAST_GRID_STEP = 2;

/** Where the blocks begin; turned when the file is stored on its side. */
type Grid = { readonly left: number; readonly top: number; readonly isTurned: boolean };

const stepOf = (table: readonly number[], [down, across]: Term, isTurned: boolean): number =>
  table[isTurned ? across * BLOCK + down : down * BLOCK + across] as number;

/** T.81, A.3.3: C(u) / 2 cos((2x + 1) u pi / 16), by frequency u, then place x. */
const COSINES = Float64Array.from({ length: BLOCK * BLOCK }, (_, at) => {
  const [frequency, place] = [Math.floor(at / BLOCK), at % BLOCK];
  return (frequency === 0 ? Math.SQRT1_2 : 1) * 0.5 * Math.cos(((2 * place + 1) * frequency * Math.PI) / 16);
});

const BLOCKS_FOR_GRID = 80;
const LEAST_AGREEMENT = 0.2;
/** With this the search ends: of 72 files, saved once, twice and turned, no place but the right one came above 0.57. */
const SURE_AGREEMENT = 0.6;

/** The grid on which the terms lie nearest to whole steps; null when none stands out. */
function findGrid(picture: Picture, table: readonly number[]): Grid | null {
  let best = { grid: { left: 0, top: 0, isTurned: false }, agreement: 0 };
  for (let top = 0; top < BLOCK; top++) {
    for (let left = 0; left < BLOCK; left++) {
      const values = termsOf(blocksOn(picture, { left, top, isTurned: false }, BLOCKS_FOR_GRID), GRID_TERMS);
      for (const isTurned of [false, true]) {
        const agreement = agreementOf(values, table, isTurned);
        if (agreement > best.agreement) best = { grid: { left, top, isTurned }, agreement };
      }
      if (best.agreement >= SURE_AGREEMENT) return best.grid;
    }
  }
  return best.agreement >= LEAST_AGREEMENT ? best.grid : null;
}

/** Mean of cos(2 pi value / step) over the values of each grid term: 1 on whole steps, 0 where values lie anywhere. */
function agreementOf(values: readonly Float64Array[], table: readonly number[], isTurned: boolean): number {
  let sum = 0;
  let count = 0;
  for (const [index, term] of GRID_TERMS.entries()) {
    const step = stepOf(table, term, isTurned);
    if (step < LEAST_GRID_STEP) continue;
    for (const value of values[index] as Float64Array) {
      if (Math.abs(value) < step) continue;
      sum += Math.cos((2 * Math.PI * value) / step);
      count++;
    }
  }
  return count < FEWEST_VALUES ? 0 : sum / count;
}

const FEWEST_VALUES = 60;
const MOST_BLOCKS = 4000;
/** Neighbours to each side that a count is held against: near ones, and as far as a first save of far coarser steps beats. */
const NARROW_REACH = 2;
const WIDEST_REACH = 8;
const MOST_STEPS = 1024;
const FEWEST_PER_STEP = 10;
const FEWEST_STEPS = 6;

/** The signal of one term; null when too few steps have enough values. */
function signalOf(values: Float64Array, step: number): number | null {
  const counts = new Float64Array(MOST_STEPS + 2 * WIDEST_REACH);
  for (const value of values) {
    const whole = Math.abs(Math.round(value / step));
    counts[whole] = (counts[whole] as number) + 1;
  }
  const signals = [NARROW_REACH, WIDEST_REACH].map((reach) => unlikeness(counts, reach)).filter((signal) => signal !== null);
  return signals.length === 0 ? null : Math.max(...signals);
}

function unlikeness(counts: Float64Array, reach: number): number | null {
  let squares = 0;
  let steps = 0;
  for (let k = reach + 1; k < MOST_STEPS; k++) {
    const usual = usualCount(counts, k, reach);
    if (usual < FEWEST_PER_STEP) break;
    squares += ((counts[k] as number) - usual) ** 2 / usual;
    steps++;
  }
  return steps < FEWEST_STEPS ? null : Math.sqrt(squares / steps);
}

/** Mean of the neighbours to both sides, less what it is too high where counts fall by a constant share from step to step. */
function usualCount(counts: Float64Array, k: number, reach: number): number {
  const sumOf = (from: number, to: number) => counts.subarray(from, to + 1).reduce((sum, count) => sum + count, 0);
  const fall = Math.log((sumOf(k, k + reach) + 1) / (sumOf(k - reach, k) + 1)) / reach;
  let fallen = 1;
  for (let j = 1; j <= reach; j++) fallen += 2 * Math.cosh(j * fall);
  return sumOf(k - reach, k + reach) / fallen;
}

/** Of each term its value in every block. The sums along rows, which terms of one frequency across share, are made once. */
function termsOf(lumas: Float64Array, terms: readonly Term[]): Float64Array[] {
  const count = lumas.length / BLOCK ** 2;
  const values = terms.map(() => new Float64Array(count));
  const most = Math.max(...terms.map(([, across]) => across));
  const along = new Float64Array((most + 1) * BLOCK);
  for (let block = 0; block < count; block++) {
    for (let row = 0; row < (most + 1) * BLOCK; row++) {
      const from = block * BLOCK ** 2 + (row % BLOCK) * BLOCK;
      const cosines = row - (row % BLOCK);
      let sum = 0;
      for (let x = 0; x < BLOCK; x++) sum += (COSINES[cosines + x] as number) * (lumas[from + x] as number);
      along[row] = sum;
    }
    for (let term = 0; term < terms.length; term++) {
      const [down, across] = terms[term] as Term;
      let sum = 0;
      for (let y = 0; y < BLOCK; y++) sum += (COSINES[down * BLOCK + y] as number) * (along[across * BLOCK + y] as number);
      (values[term] as Float64Array)[block] = sum;
    }
  }
  return values;
}

/** Luma (JFIF: 0.299 R + 0.587 G + 0.114 B) of blocks spread evenly over the frame, one after the other, clipped ones left out. */
function blocksOn({ codes, widthPx, heightPx }: Picture, { left, top }: Grid, most: number): Float64Array {
  const columns = Math.floor((widthPx - left) / BLOCK);
  const rows = Math.floor((heightPx - top) / BLOCK);
  const stride = Math.max(1, Math.floor((columns * rows) / most));
  const lumas = new Float64Array(Math.ceil((columns * rows) / stride) * BLOCK ** 2);
  let into = 0;
  for (let index = stride >> 1; index < columns * rows; index += stride) {
    const start = ((top + BLOCK * Math.floor(index / columns)) * widthPx + left + BLOCK * (index % columns)) * 3;
    const first = into;
    let isClipped = false;
    for (let y = 0; y < BLOCK; y++) {
      for (let x = 0, from = start + y * widthPx * 3; x < BLOCK; x++, from += 3) {
        const r = codes[from] as number;
        const g = codes[from + 1] as number;
        const b = codes[from + 2] as number;
        if (r === 0 || g === 0 || b === 0 || r === 255 || g === 255 || b === 255) isClipped = true;
        lumas[into++] = 0.299 * r + 0.587 * g + 0.114 * b;
      }
    }
    if (isClipped) into = first;
  }
  return lumas.subarray(0, into);
}
