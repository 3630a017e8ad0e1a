import { boxBlur } from "../planes/box-blur.ts";
import { type GridPlane, resized, valueAt } from "../planes/grid-plane.ts";
import { grown, opened } from "../planes/mask.ts";

/** A connected patch of lines that follow each other as the fringes of interference do. */
export type Fringes = {
  /** 1 where they are seen, on the cells of `width` × `height` */
  readonly mask: Uint8Array;
  readonly width: number;
  readonly height: number;
  readonly areaMm2: number;
  /** 0 where all lines run one way, 1 where they run every way alike */
  readonly turn: number;
  /** where the lines across all fringes meet best, mm of the plane: rings are centred there */
  readonly centre: { readonly xMm: number; readonly yMm: number };
  /** of the local periods, mm: the 10th, 50th and 90th percentile */
  readonly periodsMm: readonly [number, number, number];
  /** half of what lies between a bright and a dark line, ln of light; median */
  readonly contrast: number;
};

/** Periods looked for, mm. */
const LONGEST_MM = 5;
const SHORTEST_MM = 1.1;
const SCALES = 6;
/** A period is looked at on a plane so coarse that it spans so many px. */
const PERIOD_PX = 5;
const LEAST_RESPONSE = 0.5;
/** Cells of the answer. */
const CELLS_PER_MM = 1.5;
const LEAST_CONTRAST = 0.004;

/**
 * Looks for fringes on a plane of ln light without NaN. For each of six periods: the band round it; the structure tensor
 * of the band over 0.9 periods, which tells how far all lines near a place run one way; and the correlation of the band with
 * itself half a period and a whole period further across the lines, which an edge or a single line does not have. The least
 * of coherence, -correlation at the half and correlation at the whole (+ 0.15) is the response; where the best of all
 * periods passes 0.5 over more than thin lines, there are fringes. Answers the largest patch; null where there is none.
 * @param leastResponse instead of 0.5
 *
 * Source: structure tensor: Bigün and Granlund 1987 (from memory); the rest: own.
 */
export function findFringes(plane: GridPlane, pxPerMm: number, leastResponse = LEAST_RESPONSE): Fringes | null {
  const width = Math.max(4, Math.round((plane.width / pxPerMm) * CELLS_PER_MM));
  const height = Math.max(4, Math.round((plane.height / pxPerMm) * CELLS_PER_MM));
  const best = { response: new Float32Array(width * height), turn: new Float32Array(width * height) };
  const periods = new Float32Array(width * height);
  const contrasts = new Float32Array(width * height);
  for (let scale = 0; scale < SCALES; scale++) {
    const periodMm = SHORTEST_MM * (LONGEST_MM / SHORTEST_MM) ** (scale / (SCALES - 1));
    const factor = Math.min(1, PERIOD_PX / (periodMm * pxPerMm));
    const [columns, rows] = [Math.round(plane.width * factor), Math.round(plane.height * factor)];
    if (Math.min(columns, rows) < 2 * PERIOD_PX) continue;
    const seen = responseAt(factor === 1 ? plane : resized(plane, columns, rows), (periodMm * pxPerMm * columns) / plane.width);
    for (let row = 0, cell = 0; row < height; row++) {
      const line = Math.min(rows - 1, Math.floor(((row + 0.5) * rows) / height)) * columns;
      for (let column = 0; column < width; column++, cell++) {
        const at = line + Math.min(columns - 1, Math.floor(((column + 0.5) * columns) / width));
        const response = seen.response[at] as number;
        if (response <= (best.response[cell] as number)) continue;
        best.response[cell] = response;
        best.turn[cell] = Math.atan2(seen.sine[at] as number, seen.cosine[at] as number);
        periods[cell] = periodMm;
        contrasts[cell] = Math.sqrt(2 * (seen.power[at] as number));
      }
    }
  }
  const strong = new Uint8Array(width * height);
  for (let cell = 0; cell < strong.length; cell++) if ((best.response[cell] as number) > leastResponse) strong[cell] = 1;
  const mask = opened(strong, width, height);
  const patch = largestPatch(mask, width, height);
  if (patch.length === 0) return null;
  return {
    ...describe(patch, width, best.turn, periods, contrasts),
    mask: maskOf(patch, width * height),
    width,
    height,
    areaMm2: patch.length / CELLS_PER_MM ** 2,
  };
}

type Response = {
  readonly response: Float32Array;
  /** of the direction across the lines, where it was asked for */
  readonly cosine: Float32Array;
  readonly sine: Float32Array;
  /** mean square of the band */
  readonly power: Float32Array;
};

function responseAt(plane: GridPlane, periodPx: number): Response {
  const { width, height } = plane;
  const size = width * height;
  const room = new Float32Array(size);
  const blur = (from: Float32Array, to: Float32Array, by: number) => boxBlur({ width, height, data: from }, to, by, room);
  const band = new Float32Array(size);
  const broad = new Float32Array(size);
  blur(plane.data, band, periodPx / 7);
  blur(plane.data, broad, periodPx / 2.2);
  for (let at = 0; at < size; at++) band[at] = (band[at] as number) - (broad[at] as number);
  const xx = new Float32Array(size);
  const xy = new Float32Array(size);
  const yy = new Float32Array(size);
  const power = new Float32Array(size);
  for (let y = 1; y < height - 1; y++) {
    for (let x = 1, at = y * width + 1; x < width - 1; x++, at++) {
      const value = band[at] as number;
      const dx = (band[at + 1] as number) - (band[at - 1] as number);
      const dy = (band[at + width] as number) - (band[at - width] as number);
      xx[at] = dx * dx;
      xy[at] = dx * dy;
      yy[at] = dy * dy;
      power[at] = value * value;
    }
  }
  for (const products of [xx, xy, yy, power]) blur(products, products, 0.9 * periodPx);
  const cosine = new Float32Array(size);
  const sine = new Float32Array(size);
  const coherence = new Float32Array(size);
  const half = new Float32Array(size);
  const whole = new Float32Array(size);
  const banded: GridPlane = { width, height, data: band };
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at++) {
      const difference = (xx[at] as number) - (yy[at] as number);
      const twice = 2 * (xy[at] as number);
      const length = Math.sqrt(difference * difference + twice * twice);
      const coherent = length / Math.max(1e-12, (xx[at] as number) + (yy[at] as number));
      coherence[at] = coherent;
      if (coherent < LEAST_COHERENCE_LOOKED_AT) continue;
      // half the angle of (difference, twice), by the half-angle formulas: many times quicker than the angle itself
      const across = Math.sqrt(Math.max(0, 1 + difference / length) / 2);
      const down = (twice < 0 ? -1 : 1) * Math.sqrt(Math.max(0, 1 - difference / length) / 2);
      cosine[at] = across;
      sine[at] = down;
      const value = band[at] as number;
      half[at] = value * nearestAt(banded, x + (across * periodPx) / 2, y + (down * periodPx) / 2);
      whole[at] = value * nearestAt(banded, x + across * periodPx, y + down * periodPx);
    }
  }
  for (const products of [half, whole]) blur(products, products, 0.9 * periodPx);
  const response = new Float32Array(size);
  for (let at = 0; at < size; at++) {
    const strength = power[at] as number;
    if (!(2 * strength >= LEAST_CONTRAST ** 2)) continue;
    response[at] = Math.min(coherence[at] as number, -(half[at] as number) / strength, (whole[at] as number) / strength + 0.15);
  }
  return { response, cosine, sine, power };
}

/** Below, the response is too low whatever the correlations, and the direction is not asked for. */
const LEAST_COHERENCE_LOOKED_AT = 0.3;

/** Between pixels; beyond the rim the nearest value holds. */
const nearestAt = (plane: GridPlane, x: number, y: number): number =>
  valueAt(plane, Math.min(plane.width - 1, Math.max(0, x)), Math.min(plane.height - 1, Math.max(0, y)));

/** Patches nearly as far apart as a period count as one: rings break where their period falls between two of the scales. */
const JOINED = 2;

function largestPatch(mask: Uint8Array, width: number, height: number): number[] {
  const joined = grown(mask, width, height, JOINED);
  let largest: number[] = [];
  for (let start = 0; start < joined.length; start++) {
    if (joined[start] !== 1) continue;
    const patch = [start];
    joined[start] = 0;
    for (let next = 0; next < patch.length; next++) {
      const at = patch[next] as number;
      const [x, y] = [at % width, Math.floor(at / width)];
      for (const [i, j] of [
        [x - 1, y],
        [x + 1, y],
        [x, y - 1],
        [x, y + 1],
      ] as const) {
        if (i < 0 || j < 0 || i >= width || j >= height || joined[j * width + i] !== 1) continue;
        joined[j * width + i] = 0;
        patch.push(j * width + i);
      }
    }
    const kept = patch.filter((at) => mask[at] === 1);
    if (kept.length > largest.length) largest = kept;
  }
  return largest;
}

function maskOf(patch: readonly number[], size: number): Uint8Array {
  const mask = new Uint8Array(size);
  for (const at of patch) mask[at] = 1;
  return mask;
}

function describe(patch: readonly number[], width: number, directions: Float32Array, periods: Float32Array, contrasts: Float32Array) {
  const mean = (of: (direction: number) => number) => patch.reduce((sum, at) => sum + of(2 * (directions[at] as number)), 0) / patch.length;
  const sorted = (values: Float32Array) => Float32Array.from(patch, (at) => values[at] as number).sort();
  const at = (values: Float32Array, share: number) => values[Math.floor(share * (values.length - 1))] as number;
  const ofPeriods = sorted(periods);
  return {
    turn: 1 - Math.hypot(mean(Math.cos), mean(Math.sin)),
    centre: meetingPlace(patch, width, directions),
    periodsMm: [at(ofPeriods, 0.1), at(ofPeriods, 0.5), at(ofPeriods, 0.9)] as const,
    contrast: at(sorted(contrasts), 0.5),
  };
}

/** Least squares of the distances to the lines that run across the fringes through every cell of the patch. */
function meetingPlace(patch: readonly number[], width: number, directions: Float32Array): Fringes["centre"] {
  let [xx, xy, yy, x, y] = [1e-9, 0, 1e-9, 0, 0];
  for (const at of patch) {
    const [px, py] = [at % width, Math.floor(at / width)];
    const [dx, dy] = [Math.cos(directions[at] as number), Math.sin(directions[at] as number)];
    xx += dy * dy;
    xy -= dx * dy;
    yy += dx * dx;
    x += dy * dy * px - dx * dy * py;
    y += dx * dx * py - dx * dy * px;
  }
  const determinant = Math.max(1e-12, xx * yy - xy * xy);
  return { xMm: ((x * yy - y * xy) / determinant + 0.5) / CELLS_PER_MM, yMm: ((y * xx - x * xy) / determinant + 0.5) / CELLS_PER_MM };
}
