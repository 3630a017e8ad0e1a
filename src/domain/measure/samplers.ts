import type { ColourSampler } from "./edge-line.ts";
import type { Picture } from "./picture.ts";
import type { ReducedCopy } from "./reduced-copy.ts";

/** Linear R, G, B of the full picture, between pixels by bilinear weights. The picture is at least 2 × 2 px. */
export function linearSampler(picture: Picture): ColourSampler {
  const { widthPx, heightPx, codes, linearOf } = picture;
  return (atX, atY, into) => {
    const x = Math.min(widthPx - 1, Math.max(0, atX));
    const y = Math.min(heightPx - 1, Math.max(0, atY));
    const x0 = Math.min(widthPx - 2, Math.floor(x));
    const y0 = Math.min(heightPx - 2, Math.floor(y));
    const fx = x - x0;
    const fy = y - y0;
    const at = (y0 * widthPx + x0) * 3;
    const below = at + widthPx * 3;
    for (let channel = 0; channel < 3; channel++) {
      const table = linearOf[channel] as Float32Array;
      const upper = (table[codes[at + channel] as number] as number) * (1 - fx) + (table[codes[at + 3 + channel] as number] as number) * fx;
      const lower =
        (table[codes[below + channel] as number] as number) * (1 - fx) + (table[codes[below + 3 + channel] as number] as number) * fx;
      into[channel] = upper * (1 - fy) + lower * fy;
    }
    return x === atX && y === atY;
  };
}

/** L*, a*, b* of the reduced copy, nearest pixel: for finding, not for measuring. */
export function labSampler(copy: ReducedCopy): ColourSampler {
  const { widthPx, heightPx, lightness, a, b } = copy;
  return (atX, atY, into) => {
    const column = Math.min(widthPx - 1, Math.max(0, Math.round(atX)));
    const row = Math.min(heightPx - 1, Math.max(0, Math.round(atY)));
    const at = row * widthPx + column;
    into[0] = lightness[at] as number;
    into[1] = a[at] as number;
    into[2] = b[at] as number;
    return column === Math.round(atX) && row === Math.round(atY);
  };
}
