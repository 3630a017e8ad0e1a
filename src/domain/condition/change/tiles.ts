import type { LaidSheets } from "./lay-sheets.ts";

export type Light = readonly [red: number, green: number, blue: number];
/** One place of the print: mean linear light in both captures. */
export type Tile = { readonly older: Light; readonly newer: Light };

/** Which cells are looked at, and how far the newer capture is moved for it: for asking what a number rests on. */
export type Look = { readonly moveX: 0 | 1; readonly moveY: 0 | 1; readonly keeps: (x: number, y: number) => boolean };
export const WHOLE: Look = { moveX: 0, moveY: 0, keeps: () => true };

/** A tile must hold this share of the cells that the fullest holds, and both captures this share of its cells. */
const LEAST_FULL = 0.15;
const LEAST_SEEN = 0.5;

/** Square tiles of a part of the sheet, each the mean of the cells that both captures hold. */
export function tilesOf(sheets: LaidSheets, part: number, sideMm: number, look: Look): Tile[] {
  const { older, newer, parts, pxPerMm } = sheets;
  const { width, height } = older;
  const side = Math.max(1, Math.round(sideMm * pxPerMm));
  const columns = Math.ceil(width / side);
  const sums = new Float64Array(columns * Math.ceil(height / side) * 6);
  const counts = new Int32Array(sums.length / 6);
  const asked = new Int32Array(counts.length);
  for (let y = 0; y < height - look.moveY; y++) {
    for (let x = 0; x < width - look.moveX; x++) {
      const at = y * width + x;
      if (parts[at] !== part || !look.keeps(x, y)) continue;
      const tile = Math.floor(y / side) * columns + Math.floor(x / side);
      asked[tile] = (asked[tile] as number) + 1;
      const there = at + look.moveY * width + look.moveX;
      let total = 0;
      for (let channel = 0; channel < 3; channel++) total += (older.channels[channel] as Float32Array)[at] as number;
      for (let channel = 0; channel < 3; channel++) total += (newer.channels[channel] as Float32Array)[there] as number;
      if (Number.isNaN(total)) continue;
      counts[tile] = (counts[tile] as number) + 1;
      for (let channel = 0; channel < 3; channel++) {
        sums[6 * tile + channel] = (sums[6 * tile + channel] as number) + ((older.channels[channel] as Float32Array)[at] as number);
        sums[6 * tile + 3 + channel] =
          (sums[6 * tile + 3 + channel] as number) + ((newer.channels[channel] as Float32Array)[there] as number);
      }
    }
  }
  const fullest = asked.reduce((most, count) => Math.max(most, count), 0);
  const tiles: Tile[] = [];
  for (let tile = 0; tile < counts.length; tile++) {
    const count = counts[tile] as number;
    if (count === 0 || (asked[tile] as number) < LEAST_FULL * fullest || count < LEAST_SEEN * (asked[tile] as number)) continue;
    const mean = (index: number) => (sums[6 * tile + index] as number) / count;
    tiles.push({ older: [mean(0), mean(1), mean(2)], newer: [mean(3), mean(4), mean(5)] });
  }
  return tiles;
}
