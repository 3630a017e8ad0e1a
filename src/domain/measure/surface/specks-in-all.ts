import { median } from "../numbers/robust.ts";
import type { GridPlane } from "../planes/grid-plane.ts";
import { grown } from "../planes/mask.ts";
import { shapeOf } from "./dust.ts";
import { findSpecks, restOf } from "./specks.ts";

/** Specks that every capture shows at one place of the print, and how much of the picture is plain enough to look at. */
export type SpecksInAll = { readonly specks: number; readonly plainCm2: number };

/**
 * Specks of dust that all captures show alike: in the print, part of what it shows, or on the glass where it lay in the same place. At a cell all share the smallest departure of any
 * from its ground, where all go one way. Looked for only where the picture is plain, since its own detail looks the same elsewhere: on
 * tiles of 2.5 mm of which, and of all round them, the middle cell shares less than 1.2 % of the light (a spread of 1.8 %). A speck stands off by 6 % of the light, and by 8 spreads of its tile.
 * Null where less than 1 cm² is plain. Source: own.
 * @param logs ln of light of each capture, in like tones; NaN where any has nothing
 */
export function specksInAll(logs: readonly GridPlane[], pxPerMm: number): SpecksInAll | null {
  const { width, height, data } = logs[0] as GridPlane;
  const shared = sharedBy(logs.map(restOf)).map((value, at) => (Number.isNaN(data[at]) ? Number.NaN : value));
  const tilePx = Math.round(TILE_MM * pxPerMm);
  const [columns, rows] = [Math.ceil(width / tilePx), Math.ceil(height / tilePx)];
  const spreads = tileSpreads({ width, height, data: shared }, tilePx, columns, rows);
  const busy = grown(
    Uint8Array.from(spreads, (spread) => (spread < PLAIN ? 0 : 1)),
    columns,
    rows,
    1,
  );
  const tileOf = (x: number, y: number) => Math.floor(y / tilePx) * columns + Math.floor(x / tilePx);
  const limits = new Float32Array(shared.length).fill(Number.POSITIVE_INFINITY);
  let plain = 0;
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at++) {
      const tile = tileOf(x, y);
      if (busy[tile] === 1 || Number.isNaN(shared[at])) continue;
      plain++;
      limits[at] = Math.max(LEAST_CONTRAST, TIMES_SPREAD * (spreads[tile] as number));
    }
  }
  const plainCm2 = plain / pxPerMm ** 2 / 100;
  if (plainCm2 < LEAST_CM2) return null;
  const found = findSpecks({ width, height, data: shared }, () => limits);
  return { specks: found.filter((speck) => shapeOf(speck, pxPerMm).kind === "dust").length, plainCm2 };
}

const TILE_MM = 2.5;
const LEAST_CM2 = 1;
/** ln of light, as normal spreads. */
const PLAIN = 0.018;
const TIMES_SPREAD = 8;
const LEAST_CONTRAST = 0.06;

function sharedBy(rests: readonly Float32Array[]): Float32Array {
  const [first, ...others] = rests as [Float32Array, ...Float32Array[]];
  return first.map((value, at) => {
    let least = value;
    for (const other of others) {
      const here = other[at] as number;
      if (here * value <= 0) return 0;
      if (Math.abs(here) < Math.abs(least)) least = here;
    }
    return least;
  });
}

/** Infinite where a tile is not wholly seen. */
function tileSpreads({ width, height, data }: GridPlane, tilePx: number, columns: number, rows: number): Float32Array {
  return Float32Array.from({ length: columns * rows }, (_, tile) => {
    const [left, top] = [(tile % columns) * tilePx, Math.floor(tile / columns) * tilePx];
    const sizes: number[] = [];
    for (let y = top; y < Math.min(height, top + tilePx); y++)
      for (let x = left; x < Math.min(width, left + tilePx); x++) sizes.push(Math.abs(data[y * width + x] as number));
    const middle = median(sizes);
    return Number.isNaN(middle) ? Number.POSITIVE_INFINITY : middle / 0.6745;
  });
}
