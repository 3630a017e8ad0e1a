import type { BorderPatches } from "../border/border-patches.ts";
import { solve } from "../numbers/least-squares.ts";
import { fitLight } from "../numbers/light-surface.ts";
import { quantile, robustSpread } from "../numbers/robust.ts";
import { grown, withoutSpecks } from "../planes/mask.ts";

/** The border parted in two levels of light. */
export type TwoLevels = {
  /** light of the darker level over the whole sheet, -1..1 across and down */
  readonly at: (u: number, v: number) => number;
  /** of each patch, ln of its luminance over that light */
  readonly excess: Float32Array;
  /** 1 where the border is of the brighter level, on the grid of the patches */
  readonly brighter: Uint8Array;
};

/**
 * The border's light where it lies in two levels with a step between them, as it does where a window covers so much of it that most of the
 * border is no longer plain paper. The darker level is looked for from below: a plane that a tenth of the patches lie under, then the smooth light
 * of what lies near it. Null where the light passes from one to the other without a step, since light that is uneven does that too, or
 * where what is darker still is more than dust.
 * Source: own; the plane is a regression quantile (Koenker and Bassett, Econometrica 46 (1978) 33; from memory).
 */
export function twoLevels(patches: BorderPatches): TwoLevels | null {
  const { u, v, luminance, cell, columns, rows } = patches;
  const logs = logsOf(luminance);
  const limit = Math.max(Math.log(1 + LEAST_EXCESS), 4 * noiseOf(logs, cell));
  let at = lowerPlane(u, v, logs);
  if (!at) return null;
  const excess = new Float32Array(cell.length);
  let brighter: Uint8Array = new Uint8Array(columns * rows);
  for (let look = 0; look < LOOKS; look++) {
    for (let index = 0; index < cell.length; index++) excess[index] = (logs[index] as number) - at(u[index] as number, v[index] as number);
    const mask = new Uint8Array(columns * rows);
    for (let index = 0; index < cell.length; index++) if ((excess[index] as number) > limit) mask[cell[index] as number] = 1;
    brighter = withoutSpecks(mask, columns, rows, LEAST_SPECK);
    if (look === LOOKS - 1) break;
    const near = grown(brighter, columns, rows, KEEP_AWAY);
    const plain = plainOf(cell, near, excess, limit);
    if (plain.length < LEAST_PLAIN * cell.length) return null;
    const next = lightOf(patches, logs, plain);
    if (!next) return null;
    at = next;
  }
  const darker = excess.reduce((count, value) => count + (value < -limit ? 1 : 0), 0);
  if (darker > MOST_DARKER * cell.length || !hasStep(patches, excess, brighter)) return null;
  const light = at;
  return { at: (x, y) => Math.exp(light(x, y)), excess, brighter };
}

const LEAST_EXCESS = 0.03;
const LOOKS = 5;
const LEAST_SPECK = 6;
const KEEP_AWAY = 5;
/** Share of the border that must be of the darker level, and share of it that may be darker still: dust and hairs. */
const LEAST_PLAIN = 0.08;
const MOST_DARKER = 0.04;
/** Share of the patches under the plane that the search starts from. */
const LOWER = 0.1;
const PASSES = 25;
const MOST_POINTS = 1500;

type LogLight = (u: number, v: number) => number;

function logsOf(luminance: Float32Array): Float32Array {
  const logs = new Float32Array(luminance.length);
  for (let index = 0; index < logs.length; index++) logs[index] = Math.log(Math.max(1e-6, luminance[index] as number));
  return logs;
}

/** Patches away from the brighter level whose light is that of the darker one. */
function plainOf(cell: Int32Array, near: Uint8Array, excess: Float32Array, limit: number): Int32Array {
  const plain = new Int32Array(cell.length);
  let count = 0;
  for (let index = 0; index < cell.length; index++)
    if (near[cell[index] as number] === 0 && Math.abs(excess[index] as number) < limit) plain[count++] = index;
  return plain.slice(0, count);
}

/** Scatter of neighbours, so that steps and falling light do not count. */
function noiseOf(logs: Float32Array, cell: Int32Array): number {
  const differences: number[] = [];
  for (let index = 1; index < cell.length; index++)
    if (cell[index] === (cell[index - 1] as number) + 1) differences.push((logs[index] as number) - (logs[index - 1] as number));
  return robustSpread(differences, 0) / Math.SQRT2;
}

/** Regression quantile of a plane by iterated reweighted least squares. */
function lowerPlane(u: Float32Array, v: Float32Array, logs: Float32Array): LogLight | null {
  const stride = Math.max(1, Math.ceil(logs.length / MOST_POINTS));
  let terms = [quantile(logs, LOWER), 0, 0];
  for (let pass = 0; pass < PASSES; pass++) {
    const found = plane(u, v, logs, stride, (residual) => (residual < 0 ? 1 - LOWER : LOWER) / Math.max(0.002, Math.abs(residual)), terms);
    if (!found) return null;
    terms = found;
  }
  return planeAt(terms);
}

const planeAt =
  ([level, across, down]: readonly number[]): LogLight =>
  (x, y) =>
    (level as number) + (across as number) * x + (down as number) * y;

function plane(
  u: ArrayLike<number>,
  v: ArrayLike<number>,
  logs: ArrayLike<number>,
  stride: number,
  weightOf: (residual: number) => number,
  terms: readonly number[],
): number[] | null {
  const before = planeAt(terms);
  const sums = new Float64Array(9);
  const right = new Float64Array(3);
  for (let index = 0; index < logs.length; index += stride) {
    const row = [1, u[index] as number, v[index] as number];
    const value = logs[index] as number;
    const weight = weightOf(value - before(row[1] as number, row[2] as number));
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) sums[i * 3 + j] = (sums[i * 3 + j] as number) + weight * (row[i] as number) * (row[j] as number);
      right[i] = (right[i] as number) + weight * (row[i] as number) * value;
    }
  }
  return solve([...sums], [...right]);
}

/** A curved surface where three sides or more show enough of the level to hold it; else a plane. */
function lightOf({ u, v, side, luminance }: BorderPatches, logs: Float32Array, plain: Int32Array): LogLight | null {
  const [all, left] = [new Float64Array(4), new Float64Array(4)];
  for (const each of side) all[each] = (all[each] as number) + 1;
  for (const index of plain) left[side[index] as number] = (left[side[index] as number] as number) + 1;
  const held = left.filter((count, index) => count > HELD * (all[index] as number)).length;
  if (held >= HELD_SIDES) {
    const light = fitLight(u, v, luminance, plain);
    return light && ((x, y) => Math.log(light.at(x, y)));
  }
  const pick = (values: Float32Array) => Float32Array.from(plain, (index) => values[index] as number);
  let terms: number[] | null = [quantile(pick(logs), 0.5), 0, 0];
  for (let pass = 0; pass < PASSES && terms; pass++)
    terms = plane(pick(u), pick(v), pick(logs), 1, (residual) => 1 / Math.max(0.002, Math.abs(residual)), terms);
  return terms && planeAt(terms);
}

/** Share of a side that holds the surface there, and how many sides must. */
const HELD = 0.4;
const HELD_SIDES = 3;

/**
 * Patches from the end of the brighter level, where it is faint, that are compared: so many inside, about 4 mm of a small print, since what is
 * mirrored may be soft, and so many outside. Share of the brightness that must end there.
 */
const WITHIN = 10;
const BEYOND = 3;
const FEWEST_PAIRS = 12;
const LEAST_STEP = 0.5;

function hasStep({ cell, columns, rows }: BorderPatches, excess: Float32Array, brighter: Uint8Array): boolean {
  const indexOf = new Int32Array(columns * rows).fill(-1);
  cell.forEach((place, index) => {
    indexOf[place] = index;
  });
  const inside: number[] = [];
  const steps: number[] = [];
  for (let index = 0; index < cell.length; index++) {
    const place = cell[index] as number;
    if (brighter[place] !== 1) continue;
    inside.push(excess[index] as number);
    const column = place % columns;
    for (const [dx, dy] of NEIGHBOURS) {
      const next = place + dx + dy * columns;
      if (column + dx < 0 || column + dx >= columns || indexOf[next] === undefined || indexOf[next] < 0 || brighter[next] === 1) continue;
      const [outer, inner] = [column + BEYOND * dx, column - WITHIN * dx];
      const reaches = Math.min(outer, inner) >= 0 && Math.max(outer, inner) < columns;
      const [beyond, within] = [indexOf[place + BEYOND * (dx + dy * columns)], indexOf[place - WITHIN * (dx + dy * columns)]];
      if (!reaches || beyond === undefined || within === undefined || beyond < 0 || within < 0) continue;
      steps.push((excess[within] as number) - (excess[beyond] as number));
    }
  }
  return steps.length >= FEWEST_PAIRS && quantile(steps, 0.5) > LEAST_STEP * quantile(inside, 0.5);
}

const NEIGHBOURS = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;
