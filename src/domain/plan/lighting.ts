import { lightnessOf } from "../measure/colour/lab.ts";
import type { Extent } from "./sampling.ts";

/** Lamps stand round the print, all alike, each facing its middle. */
export type Lamps = {
  /** one at the left, two opposite each other, or four over the corners' diagonals */
  readonly count: 1 | 2 | 4;
  /** how high each stands, seen from the print's middle, in degrees above its plane */
  readonly elevationDegrees: number;
  /** from the print's middle to the middle of the lamp */
  readonly distanceMm: number;
  /** across its bright face */
  readonly widthMm: number;
};

/** A place in mm from the print's middle: x to the right, y down the print, z up towards the lens. */
export type Place = { readonly x: number; readonly y: number; readonly z: number };

export function lampPlaces({ count, elevationDegrees, distanceMm }: Lamps): Place[] {
  const away = distanceMm * Math.cos(radians(elevationDegrees));
  const z = distanceMm * Math.sin(radians(elevationDegrees));
  const directions = count === 1 ? [180] : count === 2 ? [180, 0] : [-135, -45, 45, 135];
  return directions.map((degrees) => ({ x: away * Math.cos(radians(degrees)), y: away * Math.sin(radians(degrees)), z }));
}

/** The slope at the edge of a print that bows up evenly by `riseMm` across `widthMm`: 4 rise / width, for a shallow arc. */
export const edgeSlopeDegrees = (riseMm: number, widthMm: number): number => degrees(Math.atan((4 * riseMm) / widthMm));

/**
 * How far from the axis, at a height over the print, a lamp would still be mirrored into the lens: the family of angles. A ray from
 * the lens at height H meets the edge at half-width w and leaves at the same angle (law of reflection); a slope of the surface
 * turns it by twice the slope. w + h tan(arctan(w / H) + 2 slope); without end where the turned ray no longer rises.
 */
export function glareZoneMm(halfWidthMm: number, lensHeightMm: number, lampHeightMm: number, slopeDegrees: number): number {
  const turned = Math.atan(halfWidthMm / lensHeightMm) + 2 * radians(slopeDegrees);
  return turned >= Math.PI / 2 ? Number.POSITIVE_INFINITY : halfWidthMm + lampHeightMm * Math.tan(turned);
}

/**
 * Room in mm between the lamps' bright faces and the family of angles, in the plane through lens and lamp; negative where a part
 * of a face is mirrored into the lens. `halfAcrossMm` is half the print's extent towards the lamp.
 */
export function glareClearanceMm(lamps: Lamps, halfAcrossMm: number, lensHeightMm: number, slopeDegrees: number): number {
  const sin = Math.sin(radians(lamps.elevationDegrees));
  const cos = Math.cos(radians(lamps.elevationDegrees));
  const half = lamps.widthMm / 2;
  const ends = [half, -half].map((end) => ({
    away: lamps.distanceMm * cos - end * sin,
    height: Math.max(0, lamps.distanceMm * sin + end * cos),
  }));
  return Math.min(...ends.map(({ away, height }) => away - glareZoneMm(halfAcrossMm, lensHeightMm, height, slopeDegrees)));
}

/** Half the print's extent in the direction of its lamps: half its width for lamps left and right, half its diagonal for four. */
export const halfTowardsLamps = (print: Extent, count: Lamps["count"]): number =>
  count === 4 ? Math.hypot(print.widthMm, print.heightMm) / 2 : print.widthMm / 2;

/** The steepest elevation in whole degrees at which lamps at this distance stay clear of the family of angles; null where none does. */
export function steepestClearElevation(lamps: Lamps, halfAcrossMm: number, lensHeightMm: number, slopeDegrees: number): number | null {
  for (let elevationDegrees = 80; elevationDegrees >= 10; elevationDegrees--)
    if (glareClearanceMm({ ...lamps, elevationDegrees }, halfAcrossMm, lensHeightMm, slopeDegrees) >= 0) return elevationDegrees;
  return null;
}

/** Light at a place of the print as a share of that at its middle: the sum of cos i / d² over lamps that are small beside d. */
export function lightAt(lamps: Lamps, x: number, y: number): number {
  const of = (px: number, py: number) =>
    lampPlaces(lamps).reduce((sum, lamp) => sum + lamp.z / Math.hypot(lamp.x - px, lamp.y - py, lamp.z) ** 3, 0);
  return of(x, y) / of(0, 0);
}

/** What a lens leaves at an angle from its axis: cos⁴, at the angle that a place of the print is seen from. */
export const lensFallOff = (awayMm: number, lensHeightMm: number): number => Math.cos(Math.atan(awayMm / lensHeightMm)) ** 4;

const GRID = 8;

/** Paper white, as a share of the brightest light a picture holds (own figure). */
const PAPER = 0.8;

export type LightFallOff = {
  /** darkest against brightest place of the print, as a loss of light in percent, by the lamps' places, by the lens, and by both */
  readonly lamps: number;
  readonly lens: number;
  readonly both: number;
  /** standard deviation over mean of the lightness of plain paper, percent: how 36 CFR 1236.50 and FADGI put evenness */
  readonly lightnessSpreadPercent: number;
};

/** How evenly a print is lit, at a grid of its places. */
export function lightFallOff(lamps: Lamps, print: Extent, lensHeightMm: number): LightFallOff {
  const shares = { lamps: [] as number[], lens: [] as number[], both: [] as number[] };
  for (let row = 0; row <= GRID; row++)
    for (let column = 0; column <= GRID; column++) {
      const x = (column / GRID - 0.5) * print.widthMm;
      const y = (row / GRID - 0.5) * print.heightMm;
      const byLamps = lightAt(lamps, x, y);
      const byLens = lensFallOff(Math.hypot(x, y), lensHeightMm);
      shares.lamps.push(byLamps);
      shares.lens.push(byLens);
      shares.both.push(byLamps * byLens);
    }
  const loss = (values: readonly number[]) => 100 * (1 - Math.min(...values) / Math.max(...values));
  const lightness = shares.both.map((share) => lightnessOf((PAPER * share) / Math.max(...shares.both)));
  return { lamps: loss(shares.lamps), lens: loss(shares.lens), both: loss(shares.both), lightnessSpreadPercent: spreadPercent(lightness) };
}

function spreadPercent(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return (100 * Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1))) / mean;
}

const radians = (of: number): number => (of * Math.PI) / 180;
const degrees = (of: number): number => (of * 180) / Math.PI;
