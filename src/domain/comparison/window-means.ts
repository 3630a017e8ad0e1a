import type { GridPlane } from "../measure/planes/grid-plane.ts";

/** Answers the mean of a plane in a rectangle (px, its right and lower end not included); NaN where any value in it is NaN. */
export type MeanIn = (left: number, top: number, right: number, bottom: number) => number;

/** Means of rectangles from sums over all that lies above and to the left (F. C. Crow, "Summed-Area Tables for Texture Mapping", 1984). */
export function windowMeans({ width, height, data }: GridPlane): MeanIn {
  const row = width + 1;
  const sums = new Float64Array(row * (height + 1));
  const gaps = new Int32Array(row * (height + 1));
  for (let y = 0; y < height; y++) {
    let [sum, gap] = [0, 0];
    for (let x = 0; x < width; x++) {
      const value = data[y * width + x] as number;
      if (Number.isNaN(value)) gap++;
      else sum += value;
      const at = (y + 1) * row + x + 1;
      sums[at] = sum + (sums[at - row] as number);
      gaps[at] = gap + (gaps[at - row] as number);
    }
  }
  const inside = (table: Float64Array | Int32Array, left: number, top: number, right: number, bottom: number) =>
    (table[bottom * row + right] as number) -
    (table[top * row + right] as number) -
    (table[bottom * row + left] as number) +
    (table[top * row + left] as number);
  return (left, top, right, bottom) => {
    if (left < 0 || top < 0 || right > width || bottom > height || right <= left || bottom <= top) return Number.NaN;
    if (inside(gaps, left, top, right, bottom) > 0) return Number.NaN;
    return inside(sums, left, top, right, bottom) / ((right - left) * (bottom - top));
  };
}
