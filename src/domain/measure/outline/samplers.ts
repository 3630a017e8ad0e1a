import type { Picture } from "../picture.ts";
import type { ColourSampler, ProfileSampler } from "./edge-line.ts";
import type { ReducedCopy } from "./reduced-copy.ts";

/** Linear R, G, B of the full picture, between pixels by bilinear weights. The picture is at least 2 × 2 px. */
export function linearSampler(picture: Picture): ColourSampler {
  return (x, y, into) => {
    readLinear(picture, x, y, into, 0);
    return isInPicture(picture, x, y);
  };
}

/** The same along profiles. */
export function linearProfiles(picture: Picture): ProfileSampler {
  return (x, y, stepX, stepY, reach, into) => {
    if (!isInPicture(picture, x, y)) return false;
    for (let k = -reach, first = 0; k <= reach; k++, first += 3) readLinear(picture, x + stepX * k, y + stepY * k, into, first);
    return true;
  };
}

const isInPicture = ({ widthPx, heightPx }: Picture, x: number, y: number) => x >= 0 && y >= 0 && x <= widthPx - 1 && y <= heightPx - 1;

function readLinear({ widthPx, heightPx, codes, linearOf }: Picture, atX: number, atY: number, into: Float64Array, first: number): void {
  const x = Math.min(widthPx - 1, Math.max(0, atX));
  const y = Math.min(heightPx - 1, Math.max(0, atY));
  const x0 = Math.min(widthPx - 2, x | 0);
  const y0 = Math.min(heightPx - 2, y | 0);
  const fx = x - x0;
  const fy = y - y0;
  const at = (y0 * widthPx + x0) * 3;
  const below = at + widthPx * 3;
  for (let channel = 0; channel < 3; channel++) {
    const table = linearOf[channel] as Float32Array;
    const upper = (table[codes[at + channel] as number] as number) * (1 - fx) + (table[codes[at + 3 + channel] as number] as number) * fx;
    const lower =
      (table[codes[below + channel] as number] as number) * (1 - fx) + (table[codes[below + 3 + channel] as number] as number) * fx;
    into[first + channel] = upper * (1 - fy) + lower * fy;
  }
}

/** L*, a*, b* of the reduced copy, nearest pixel: for finding, not for measuring. */
export function labSampler(copy: ReducedCopy): ColourSampler {
  return (x, y, into) => {
    readLab(copy, x, y, into, 0);
    return isInCopy(copy, x, y);
  };
}

/** The same along profiles. */
export function labProfiles(copy: ReducedCopy): ProfileSampler {
  return (x, y, stepX, stepY, reach, into) => {
    if (!isInCopy(copy, x, y)) return false;
    for (let k = -reach, first = 0; k <= reach; k++, first += 3) readLab(copy, x + stepX * k, y + stepY * k, into, first);
    return true;
  };
}

const isInCopy = ({ widthPx, heightPx }: ReducedCopy, x: number, y: number) =>
  Math.round(x) >= 0 && Math.round(y) >= 0 && Math.round(x) < widthPx && Math.round(y) < heightPx;

function readLab({ widthPx, heightPx, lightness, a, b }: ReducedCopy, atX: number, atY: number, into: Float64Array, first: number): void {
  const column = Math.min(widthPx - 1, Math.max(0, Math.round(atX))) | 0;
  const row = Math.min(heightPx - 1, Math.max(0, Math.round(atY))) | 0;
  const at = row * widthPx + column;
  into[first] = lightness[at] as number;
  into[first + 1] = a[at] as number;
  into[first + 2] = b[at] as number;
}
