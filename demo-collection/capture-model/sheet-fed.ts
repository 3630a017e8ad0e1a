import { smoothNoise } from "../random.ts";
import type { Raster, Triple } from "../raster.ts";
import { blurred } from "../raster.ts";
import { GROUNDS, type GroundName } from "./grounds.ts";
import { flat } from "./projection.ts";
import { expose, type Placed } from "./scene.ts";
import { develop } from "./sensor.ts";
import type { Taken } from "./taken.ts";

/** Dirt on the sensor bar: the same column from top to bottom. */
export type Streak = { readonly atMm: number; readonly widthPx: number; readonly gain: Triple };

export type SheetFedCapture = {
  readonly ppi: number;
  /** backing seen around the sheet; negative cuts into it */
  readonly marginMm: readonly [top: number, right: number, bottom: number, left: number];
  readonly backing: GroundName;
  readonly turnDegrees: number;
  readonly streaks: readonly Streak[];
  /** light of the bar flickering with the rollers */
  readonly banding?: { readonly periodMm: number; readonly amplitude: number };
  /** transport too slow: more rows per mm than columns, e.g. 1.006 */
  readonly stretch: number;
  /** rollers gripping unevenly, px */
  readonly wobblePx: number;
  /** red and blue rows read earlier and later than green, px */
  readonly fringePx: number;
  readonly exposure: number;
  readonly contrast?: number;
  readonly crush?: number;
  readonly sharpening: number;
  readonly seed: number;
};

/** Rollers pull the sheet past one row of sensors: fast, close-cropped, and every speck of dirt draws a line. */
export function sheetFedCapture(print: Placed, scanner: SheetFedCapture): Taken {
  const [top, right, bottom, left] = scanner.marginMm;
  const pxPerMmX = scanner.ppi / 25.4;
  const pxPerMmY = pxPerMmX * scanner.stretch;
  const widthPx = Math.round((print.drawing.sheetWidthMm + left + right) * pxPerMmX);
  const heightPx = Math.round((print.drawing.sheetHeightMm + top + bottom) * pxPerMmY);
  const rowShiftPx = Float32Array.from({ length: heightPx }, (_, y) => scanner.wobblePx * smoothNoise(y / 90, 1, scanner.seed));
  const projection = flat(widthPx, heightPx, pxPerMmX, pxPerMmY, scanner.turnDegrees, rowShiftPx);
  const centred: Placed = { ...print, centreMm: [(left - right) / 2, (top - bottom) / 2] };
  const exposed = expose({
    projection,
    placed: [centred],
    ground: GROUNDS[scanner.backing],
    light: () => 1,
    // the bar lights from behind, so the sheet's leading edge throws the deeper shadow
    shadow: { xMm: 0.05, yMm: 0.35, reachMm: 0.5, depth: 0.4 },
  });
  const sigma = 0.6;
  const seen: Raster = { widthPx, heightPx, data: blurred(exposed.raster.data, widthPx, heightPx, 3, sigma) };
  fringe(seen, scanner.fringePx);
  streak(seen, scanner.streaks, pxPerMmX);
  if (scanner.banding) band(seen, scanner.banding, pxPerMmY);
  const codes = develop(seen, {
    exposure: scanner.exposure,
    whiteBalance: [1, 1, 1.01],
    shotNoise: 0.006,
    readNoise: 0.0015,
    contrast: scanner.contrast ?? 0.1,
    crush: scanner.crush ?? 0.015,
    sharpening: { amount: scanner.sharpening, radiusPx: 1.1 },
    bits: 8,
    seed: scanner.seed,
  });
  return { codes, exposed, projection, placed: [centred], sigmaAt: () => sigma };
}

function fringe(raster: Raster, shiftPx: number): void {
  if (shiftPx === 0) return;
  const { widthPx, heightPx, data } = raster;
  for (const [channel, shift] of [
    [0, shiftPx],
    [2, -shiftPx],
  ] as const) {
    const before = data.slice();
    for (let y = 0; y < heightPx; y++) {
      const from = Math.min(heightPx - 1.001, Math.max(0, y + shift));
      const upper = from | 0;
      const share = from - upper;
      for (let x = 0; x < widthPx; x++) {
        const above = before[(upper * widthPx + x) * 3 + channel] as number;
        const below = before[(Math.min(heightPx - 1, upper + 1) * widthPx + x) * 3 + channel] as number;
        data[(y * widthPx + x) * 3 + channel] = above * (1 - share) + below * share;
      }
    }
  }
}

function streak(raster: Raster, streaks: readonly Streak[], pxPerMm: number): void {
  const { widthPx, heightPx, data } = raster;
  for (const { atMm, widthPx: wide, gain } of streaks) {
    const middle = atMm * pxPerMm;
    for (let x = Math.max(0, Math.floor(middle - wide * 2)); x <= Math.min(widthPx - 1, middle + wide * 2); x++) {
      const depth = Math.exp(-(((x - middle) / (wide / 1.66)) ** 2));
      for (let y = 0; y < heightPx; y++) {
        for (let c = 0; c < 3; c++) {
          const at = (y * widthPx + x) * 3 + c;
          data[at] = (data[at] as number) * (1 + ((gain[c] as number) - 1) * depth);
        }
      }
    }
  }
}

function band(raster: Raster, banding: { periodMm: number; amplitude: number }, pxPerMm: number): void {
  const { widthPx, heightPx, data } = raster;
  for (let y = 0; y < heightPx; y++) {
    const gain = 1 + banding.amplitude * Math.sin((2 * Math.PI * y) / (banding.periodMm * pxPerMm));
    for (let at = y * widthPx * 3; at < (y + 1) * widthPx * 3; at++) data[at] = (data[at] as number) * gain;
  }
}
