import { type Lab, labOf } from "../../measure/colour/lab.ts";
import { SRGB_TO_XYZ_D50 } from "../../measure/colour/srgb.ts";
import { solve } from "../../measure/numbers/least-squares.ts";
import type { Picture } from "../../measure/picture.ts";
import type { GridPlane } from "../../measure/planes/grid-plane.ts";

/**
 * A sheet in colour on a grid: linear red, green and blue light of the sRGB primaries, through the file's profile. They may
 * lie outside 0..1 for colours outside that space. NaN where the frame ends or a channel is at its upper end.
 */
export type ColourSheet = {
  readonly width: number;
  readonly height: number;
  readonly channels: readonly [Float32Array, Float32Array, Float32Array];
};

export type PlaceOf = (x: number, y: number, into: { x: number; y: number }) => void;

const MOST_SAMPLES = 6;

/** Samples a picture in colour; each cell is the mean of the frame's pixels in it. `placeOf` names the place of a cell's middle. */
export function colourSheet(picture: Picture, width: number, height: number, placeOf: PlaceOf): ColourSheet {
  const { widthPx, heightPx, codes, linearOf, maxCode } = picture;
  const mix = toSrgbPrimaries(picture.toXyzD50);
  const channels = [0, 1, 2].map(() => new Float32Array(width * height).fill(Number.NaN)) as [Float32Array, Float32Array, Float32Array];
  const here = { x: 0, y: 0 };
  const next = { x: 0, y: 0 };
  const sum = [0, 0, 0];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      placeOf(x, y, here);
      placeOf(x + 1, y, next);
      const [stepX, stepY] = [next.x - here.x, next.y - here.y];
      const samples = Math.min(MOST_SAMPLES, Math.max(2, Math.ceil(Math.hypot(stepX, stepY))));
      sum.fill(0);
      for (let k = 0; k < samples * samples; k++) {
        const right = ((k % samples) + 0.5) / samples - 0.5;
        const down = (Math.floor(k / samples) + 0.5) / samples - 0.5;
        // cells are square: one step down is one step right, turned by a quarter
        add(here.x + right * stepX - down * stepY, here.y + right * stepY + down * stepX);
      }
      const count = samples * samples;
      const at = y * width + x;
      for (let row = 0; row < 3; row++)
        (channels[row] as Float32Array)[at] =
          ((mix[3 * row] as number) * (sum[0] as number) +
            (mix[3 * row + 1] as number) * (sum[1] as number) +
            (mix[3 * row + 2] as number) * (sum[2] as number)) /
          count;
    }
  }
  return { width, height, channels };

  function add(atX: number, atY: number): void {
    const x0 = Math.floor(atX);
    const y0 = Math.floor(atY);
    if (x0 < 0 || y0 < 0 || x0 >= widthPx - 1 || y0 >= heightPx - 1) {
      sum[0] = Number.NaN;
      return;
    }
    const [fx, fy] = [atX - x0, atY - y0];
    const above = (y0 * widthPx + x0) * 3;
    const below = above + widthPx * 3;
    for (let channel = 0; channel < 3; channel++) {
      const table = linearOf[channel] as Float32Array;
      const [a, b] = [codes[above + channel] as number, codes[above + 3 + channel] as number];
      const [c, d] = [codes[below + channel] as number, codes[below + 3 + channel] as number];
      const isClipped = a === maxCode || b === maxCode || c === maxCode || d === maxCode;
      const upper = (table[a] as number) * (1 - fx) + (table[b] as number) * fx;
      const lower = (table[c] as number) * (1 - fx) + (table[d] as number) * fx;
      sum[channel] = (sum[channel] as number) + (isClipped ? Number.NaN : upper * (1 - fy) + lower * fy);
    }
  }
}

/** From the linear light of a file's own primaries to that of sRGB, row by row. */
function toSrgbPrimaries(toXyzD50: readonly number[]): number[] {
  const columns = [0, 1, 2].map(
    (column) =>
      solve(
        SRGB_TO_XYZ_D50,
        [0, 1, 2].map((row) => toXyzD50[3 * row + column] as number),
      ) ?? [0, 0, 0],
  );
  return [0, 1, 2].flatMap((row) => columns.map((column) => column[row] as number));
}

/** CIELAB of linear light of the sRGB primaries. */
export function labOfLight(red: number, green: number, blue: number): Lab {
  const m = SRGB_TO_XYZ_D50;
  const part = (row: number) => (m[3 * row] as number) * red + (m[3 * row + 1] as number) * green + (m[3 * row + 2] as number) * blue;
  return labOf(part(0), part(1), part(2));
}

/** Luminance Y of a sheet. */
export function luminanceOf({ width, height, channels: [red, green, blue] }: ColourSheet): GridPlane {
  const [r, g, b] = [SRGB_TO_XYZ_D50[3] as number, SRGB_TO_XYZ_D50[4] as number, SRGB_TO_XYZ_D50[5] as number];
  return { width, height, data: red.map((value, at) => r * value + g * (green[at] as number) + b * (blue[at] as number)) };
}
