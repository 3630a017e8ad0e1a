import type { Picture, Point } from "../picture.ts";
import type { Outline } from "../reading.ts";
import { TILE } from "./picture-tiles.ts";
import { HANN, tilePowers } from "./tile-powers.ts";

/** What a tile of the picture shows at one frequency, all round. */
export type Ring = {
  /** part of the logarithm of power that goes with the sine and the cosine of the doubled angle, noise taken off */
  readonly along: number;
  readonly across: number;
  /** natural logarithm of the mean power, noise taken off; NaN where only noise is left */
  readonly log: number;
  /** whether it stands clear of noise */
  readonly isClear: boolean;
};

/** A tile's rings, by cycles per tile from 0 on. */
export type TileRings = { readonly middle: Point; readonly rings: readonly Ring[] };

export const FIRST_RING = 3;
/** 0.4 cycles per px: beyond it little is left of most captures, and JPEG takes away what is. */
export const LAST_RING = 26;
/** Share of a ring's power that must not be noise. */
const LEAST_SHARE = 0.75;
/** Rounding to whole codes of smooth tones makes steps, which are coarser than noise: by so much its power is thought larger. */
const STEPS = 16;
/** Euler's constant: by so much the mean logarithm of a power that scatters like chi-square of two degrees is below that of its mean. */
const EULER = 0.5772;
/** From so many cycles per px on only noise is thought to be left. */
const CORNER = 0.58;
const MIDDLE_TONE = 0.3;

/**
 * Power of what the picture shows, ring by ring of frequency, in tiles of 64 samples from all over it, of every `stepPx`-th pixel (their
 * mean). Of the logarithm of light, so that exposure and local brightness drop out. The noise floor is what the corners of the spectrum
 * show, the lower of both, and at least that of rounding to whole codes. Cost: one look at up to 64 tiles.
 */
export function tileRings(picture: Picture, outline: Outline, stepPx: number): TileRings[] {
  const roundingPower = (STEPS * stepOf(picture) ** 2 * HANN.reduce((sum, weight) => sum + weight * weight, 0)) / 12 / stepPx ** 2;
  return tilePowers(picture, outline, stepPx).map(({ middle, power }) => ({ middle, rings: ringsOf(power, roundingPower) }));
}

/** What one code is of the light at a middle tone, in natural logarithms. */
function stepOf({ linearOf: [, green] }: Picture): number {
  const at = green.findIndex((light) => light > MIDDLE_TONE);
  return Math.log((green[at] as number) / (green[at - 1] as number));
}

/** The points of half a spectrum: where they lie in it, their ring (-1 beyond the last), the doubled angle, and the corner they are of. */
const POINTS = Array.from({ length: (TILE / 2) * (TILE - 1) }, (_, index) => {
  const [kx, ky] = [(index % (TILE - 1)) - TILE / 2 + 1, Math.floor(index / (TILE - 1))];
  const radius = Math.hypot(kx, ky);
  const ring = Math.round(radius);
  return {
    at: ky * TILE + ((kx + TILE) % TILE),
    ring: ring <= LAST_RING ? ring : -1,
    cos2: (kx * kx - ky * ky) / radius ** 2,
    sin2: (2 * kx * ky) / radius ** 2,
    corner: radius <= CORNER * TILE ? -1 : kx > 0 ? 0 : 1,
    isOwn: ky > 0 || kx > 0,
  };
}).filter(({ ring, corner, isOwn }) => isOwn && (ring >= 0 || corner >= 0));
const CORNER_POINTS = POINTS.filter(({ corner }) => corner >= 0).length;

function ringsOf(powers: Float64Array, roundingPower: number): Ring[] {
  const sums = Array.from({ length: LAST_RING + 1 }, () => ({ count: 0, log: 0, along: 0, across: 0, weight: 0 }));
  const corners = [0, 0];
  for (const { at, ring, cos2, sin2, corner } of POINTS) {
    const power = powers[at] as number;
    if (corner >= 0) corners[corner] = (corners[corner] as number) + power;
    const sum = sums[ring];
    if (!sum) continue;
    const log = Math.log(power);
    sum.count++;
    sum.log += log;
    sum.along += log * sin2;
    sum.across += log * cos2;
    sum.weight += sin2 * sin2;
  }
  const noise = Math.max((2 * Math.min(...corners)) / CORNER_POINTS, roundingPower);
  return sums.map(({ count, log, along, across, weight }) => {
    const mean = log / count + EULER;
    // what is added evenly to all directions makes their differences less by its share
    const share = 1 - noise / Math.exp(mean);
    return {
      along: along / weight / share,
      across: across / (count - weight) / share,
      log: share > 0 ? mean + Math.log(share) : Number.NaN,
      isClear: share > LEAST_SHARE,
    };
  });
}
