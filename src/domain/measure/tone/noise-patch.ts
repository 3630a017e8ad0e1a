import { lightnessOf } from "../colour/lab.ts";
import { lightShares } from "../colour/light-shares.ts";
import { median, medianOfRoom, ranked } from "../numbers/robust.ts";
import type { Picture } from "../picture.ts";

/** ISO 15739 asks for 64 × 64 px at least. */
export const PATCH_PX = 64;
const PIXELS = PATCH_PX * PATCH_PX;

export type NoisePatch = {
  /** L* around a plane, and what second differences along rows or columns say it is, √(mean square / 6) */
  readonly deviation: number;
  readonly fromSecondDifferences: number;
  /** some of it is at the upper end of the codes, so that only its darker half was read */
  readonly isClipped: boolean;
};

/** Share of pixels with a channel at the upper end: from so many on they shorten the noise, and up to so many leave its darker half alone. */
const CLIPPED = 0.01;
const MOST_CLIPPED = 0.33;
/** Pixels that stand off so far together with a neighbour are of a speck, with what lies around them. */
const SPECK_SPREADS = 4.5;
const NEIGHBOUR_SPREADS = 3;
const SKIRT_PX = 3;
const MOST_SPECKS = 0.25;
/** L*: half a code of 8 bits. */
const LEAST_SPREAD = 0.15;
const PASSES = 2;

/**
 * Noise of one patch. Specks are marked, filled with the plane through the rest and left out; one pixel alone that stands off is noise.
 * Null when more is clipped or covered than lets it be read, or when it is clipped and nothing lies below its middle.
 */
export function readNoisePatch(picture: Picture, left: number, top: number): NoisePatch | null {
  const values = new Float64Array(PIXELS);
  let clipped = 0;
  const { codes, maxCode, widthPx } = picture;
  const [redOf, greenOf, blueOf] = lightShares(picture);
  for (let y = top, at = 0; y < top + PATCH_PX; y++) {
    for (let x = left; x < left + PATCH_PX; x++, at++) {
      const from = (y * widthPx + x) * 3;
      const red = codes[from] as number;
      const green = codes[from + 1] as number;
      const blue = codes[from + 2] as number;
      if (red === maxCode || green === maxCode || blue === maxCode) clipped++;
      values[at] = lightnessOf((redOf[red] as number) + (greenOf[green] as number) + (blueOf[blue] as number));
    }
  }
  if (clipped > MOST_CLIPPED * PIXELS) return null;
  const isClipped = clipped > CLIPPED * PIXELS;
  let isSpeck = new Uint8Array(PIXELS);
  let plane = planeOf(values);
  for (let pass = 0; pass < PASSES; pass++) {
    const before = plane;
    isSpeck = specksOf(values, before);
    // where nothing is marked the plane stays as it is, and a further look would find nothing either
    if (!isSpeck.includes(1)) {
      if (pass > 0) plane = planeOf(values);
      break;
    }
    plane = planeOf(filledIn(values, isSpeck, before));
  }
  const off = new Float64Array(PIXELS);
  let kept = 0;
  for (let at = 0; at < PIXELS; at++) if (isSpeck[at] === 0) off[kept++] = (values[at] as number) - (plane[at] as number);
  if (kept < (1 - MOST_SPECKS) * PIXELS) return null;
  const deviation = isClipped ? ofDarkerHalf(off.subarray(0, kept)) : Math.sqrt(sumOfSquares(off.subarray(0, kept)) / (kept - 3));
  if (deviation === null) return null;
  return {
    deviation,
    fromSecondDifferences: secondDifferences(values, isSpeck),
    isClipped,
  };
}

function filledIn(values: Float64Array, isSpeck: Uint8Array, plane: Float64Array): Float64Array {
  const filled = values.slice();
  for (let at = 0; at < PIXELS; at++) if (isSpeck[at] === 1) filled[at] = plane[at] as number;
  return filled;
}

/** L*: less than that below the middle is the arithmetic's. */
const ROUNDING = 1e-9;

/** Root mean square of what lies below the median, about it; null where nothing does: then clipping has taken all that could tell. */
function ofDarkerHalf(off: Float64Array): number | null {
  const middle = median(off);
  const below = off.filter((value) => value < middle - ROUNDING).map((value) => value - middle);
  return below.length === 0 ? null : Math.sqrt(sumOfSquares(below) / below.length);
}

function sumOfSquares(values: Float64Array): number {
  let sum = 0;
  for (let at = 0; at < values.length; at++) sum += (values[at] as number) ** 2;
  return sum;
}

/** The plane of least squares, at each place. */
function planeOf(values: Float64Array): Float64Array {
  const middle = (PATCH_PX - 1) / 2;
  let sum = 0;
  let alongX = 0;
  let alongY = 0;
  for (let y = 0, at = 0; y < PATCH_PX; y++) {
    for (let x = 0; x < PATCH_PX; x++, at++) {
      const value = values[at] as number;
      sum += value;
      alongX += value * (x - middle);
      alongY += value * (y - middle);
    }
  }
  // for a square of n × n places the squares of one coordinate add up to n² (n² - 1) / 12
  const squares = (PIXELS * (PATCH_PX ** 2 - 1)) / 12;
  const plane = new Float64Array(PIXELS);
  for (let y = 0, at = 0; y < PATCH_PX; y++)
    for (let x = 0; x < PATCH_PX; x++, at++)
      plane[at] = sum / PIXELS + (alongX / squares) * (x - middle) + (alongY / squares) * (y - middle);
  return plane;
}

/** 1 where a speck lies or its skirt. The spread is told by the middle and by nine tenths of the pixels: JPEG flattens most of a patch. */
function specksOf(values: Float64Array, plane: Float64Array): Uint8Array<ArrayBuffer> {
  const off = new Float64Array(PIXELS);
  const room = new Float64Array(PIXELS);
  for (let at = 0; at < PIXELS; at++) {
    off[at] = (values[at] as number) - (plane[at] as number);
    room[at] = Math.abs(off[at] as number);
  }
  // what the median has put in order needs no further look for nine tenths
  const spread = Math.max(LEAST_SPREAD, medianOfRoom(room) / 0.6745, ranked(room, Math.round(0.9 * (PIXELS - 1))) / 1.645);
  const isSpeck = new Uint8Array(PIXELS);
  for (let at = 0; at < PIXELS; at++) {
    if (Math.abs(off[at] as number) < SPECK_SPREADS * spread || !(furthestBeside(off, at) > NEIGHBOUR_SPREADS * spread)) continue;
    const x = at % PATCH_PX;
    const y = Math.floor(at / PATCH_PX);
    for (let j = Math.max(0, y - SKIRT_PX); j <= Math.min(PATCH_PX - 1, y + SKIRT_PX); j++)
      isSpeck.fill(1, j * PATCH_PX + Math.max(0, x - SKIRT_PX), j * PATCH_PX + Math.min(PATCH_PX - 1, x + SKIRT_PX) + 1);
  }
  return isSpeck;
}

/** How far the four neighbours of a place stand off the same way as it does, at most. */
function furthestBeside(off: Float64Array, at: number): number {
  const x = at % PATCH_PX;
  const sign = Math.sign(off[at] as number);
  const left = x > 0 ? sign * (off[at - 1] as number) : 0;
  const right = x < PATCH_PX - 1 ? sign * (off[at + 1] as number) : 0;
  const above = sign * (off[at - PATCH_PX] ?? 0);
  const below = sign * (off[at + PATCH_PX] ?? 0);
  return Math.max(left, right, above, below);
}

/** The lower of rows and columns, which texture coarser than a few pixels does not raise; three places in a row without a speck count. */
function secondDifferences(values: Float64Array, isSpeck: Uint8Array): number {
  let alongRows = 0;
  let countRows = 0;
  let alongColumns = 0;
  let countColumns = 0;
  for (let y = 0; y < PATCH_PX; y++) {
    const isBetween = y > 0 && y < PATCH_PX - 1;
    for (let x = 0, at = y * PATCH_PX; x < PATCH_PX; x++, at++) {
      if (isSpeck[at] === 1) continue;
      const twice = 2 * (values[at] as number);
      if (x > 0 && x < PATCH_PX - 1 && isSpeck[at - 1] === 0 && isSpeck[at + 1] === 0) {
        const difference = (values[at - 1] as number) - twice + (values[at + 1] as number);
        alongRows += difference * difference;
        countRows++;
      }
      if (isBetween && isSpeck[at - PATCH_PX] === 0 && isSpeck[at + PATCH_PX] === 0) {
        const difference = (values[at - PATCH_PX] as number) - twice + (values[at + PATCH_PX] as number);
        alongColumns += difference * difference;
        countColumns++;
      }
    }
  }
  const rows = countRows === 0 ? 0 : alongRows / countRows;
  const columns = countColumns === 0 ? 0 : alongColumns / countColumns;
  return Math.sqrt(Math.min(rows, columns) / 6);
}
