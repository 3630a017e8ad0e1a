import type { GridPlane } from "../planes/grid-plane.ts";
import type { SpeckLimits } from "./specks.ts";

/**
 * Limits for specks in the difference of captures laid on each other (ln of light): noise is stronger in the dark, and edges and
 * detail leave something wherever captures lie a little off each other or are not equally sharp. So every cell is put into one of 6
 * octaves of detail (slopesOf) and one of 6 tones, and must stand off its ground 6 times as far as the cells of its class commonly do: the larger of what
 * their middle one and their 95th percentile say, as a normal spread.
 * Source: own; 6 spreads: 3 million cells of normal noise reach 5 by chance once.
 * @param slopes of ln light, per cell
 * @param tones ln of light as most captures show it; NaN where a cell is not looked at
 */
export function localLimits(slopes: Float32Array, tones: Float32Array): SpeckLimits {
  const classes = classesOf(slopes, tones);
  return (rest) => {
    const spreads = spreadsOf(rest, tones, classes);
    const limits = new Float32Array(classes.length);
    for (let at = 0; at < limits.length; at++)
      limits[at] = Math.max(LEAST_CONTRAST, TIMES_SPREAD * (spreads[classes[at] as number] as number));
    return limits;
  };
}

const TIMES_SPREAD = 6;
/** ln of light: fainter specks cannot be told from JPEG's own. */
const LEAST_CONTRAST = 0.05;
const LEAST_SPREAD = 0.002;
const OCTAVES = 6;
const LEAST_SLOPE = 0.01;
const TONES = 6;
const MOST_TONES = 8000;
const FEWEST_CELLS = 300;
const SAMPLES = 60_000;

/** The steepest step of ln light within a cell and its neighbours that most captures (of two: both) show, so that a speck of one does not hide itself. */
export function slopesOf(logs: readonly GridPlane[]): Float32Array {
  const { width, height } = logs[0] as GridPlane;
  const own = middleOf(
    logs.map(({ data }) => {
      const slopes = new Float32Array(data.length);
      for (let at = width + 1; at < data.length - width - 1; at++) {
        const across = (data[at + 1] as number) - (data[at - 1] as number);
        const down = (data[at + width] as number) - (data[at - width] as number);
        slopes[at] = Math.sqrt(across * across + down * down) / 2 || 0;
      }
      return slopes;
    }),
    Math.min,
  );
  const wide = new Float32Array(width * height);
  for (let at = width + 1; at < own.length - width - 1; at++)
    for (let middle = at - width; middle <= at + width; middle += width)
      for (let k = middle - 1; k <= middle + 1; k++) if ((own[k] as number) > (wide[at] as number)) wide[at] = own[k] as number;
  return wide;
}

/** At every cell the middle one of several planes; of an even number what `ofTwo` makes of the two in the middle. */
export function middleOf(planes: readonly Float32Array[], ofTwo: (a: number, b: number) => number): Float32Array {
  const [first, second, third] = planes as [Float32Array, Float32Array, Float32Array | undefined];
  const result = new Float32Array(first.length);
  const all = new Float64Array(planes.length);
  const upper = planes.length >> 1;
  for (let at = 0; at < result.length; at++) {
    const [a, b] = [first[at] as number, second[at] as number];
    if (planes.length === 2) result[at] = ofTwo(a, b);
    else if (planes.length === 3) result[at] = Math.max(Math.min(a, b), Math.min(Math.max(a, b), (third as Float32Array)[at] as number));
    else {
      for (let k = 0; k < planes.length; k++) all[k] = (planes[k] as Float32Array)[at] as number;
      all.sort();
      result[at] = planes.length % 2 ? (all[upper] as number) : ofTwo(all[upper - 1] as number, all[upper] as number);
    }
  }
  return result;
}

/** Of each cell the octave of its slope and the sixth of all tones that it is in. */
function classesOf(slopes: Float32Array, tones: Float32Array): Uint8Array {
  const stride = Math.max(1, Math.floor(tones.length / MOST_TONES));
  const sorted = tones.filter((tone, at) => at % stride === 0 && !Number.isNaN(tone)).sort();
  const bounds = Float32Array.from({ length: TONES - 1 }, (_, k) => sorted[Math.floor(((k + 1) * sorted.length) / TONES)] ?? 0);
  const classes = new Uint8Array(slopes.length);
  for (let at = 0; at < classes.length; at++) {
    let octave = 0;
    for (let most = LEAST_SLOPE; octave < OCTAVES - 1 && (slopes[at] as number) > most; most *= 2) octave++;
    let tone = 0;
    while (tone < TONES - 1 && (tones[at] as number) > (bounds[tone] as number)) tone++;
    classes[at] = octave * TONES + tone;
  }
  return classes;
}

/** Of each class; one of few cells has that of the next lesser detail of its tone, else of all. */
function spreadsOf(rest: Float32Array, tones: Float32Array, classes: Uint8Array): Float32Array {
  const groups = Array.from({ length: OCTAVES * TONES }, () => [] as number[]);
  const stride = Math.max(1, Math.floor(rest.length / SAMPLES));
  for (let at = 0; at < rest.length; at += stride)
    if (!Number.isNaN(tones[at])) groups[classes[at] as number]?.push(Math.abs(rest[at] as number));
  const spreads = new Float32Array(groups.length);
  const all = spreadOf(groups.flat());
  groups.forEach((values, index) => {
    spreads[index] = values.length >= FEWEST_CELLS ? spreadOf(values) : index >= TONES ? (spreads[index - TONES] as number) : all;
  });
  return spreads;
}

function spreadOf(sizes: readonly number[]): number {
  const sorted = Float64Array.from(sizes).sort();
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))] ?? 0;
  return Math.max(LEAST_SPREAD, at(0.5) / 0.6745, at(0.95) / 1.96);
}
