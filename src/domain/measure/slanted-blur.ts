import { hannWindow, TileTransform } from "./fourier.ts";
import type { Picture } from "./picture.ts";
import { pictureTiles, TILE } from "./picture-tiles.ts";
import type { Outline } from "./reading.ts";
import { median, robustSpread } from "./robust.ts";

/**
 * By how much blur differs between directions, from what the picture shows. The logarithm of a tile's power has, round a ring of one
 * frequency f (cycles per px), a part that goes with the doubled angle: what the picture shows makes it much alike at all f, blur makes it grow by
 * -4 π² f² times half the difference of its variances. So: for each tile the slope of that part over f², by rings that stand
 * clear of noise; over the tiles the median.
 *
 * along: variance along +45° (down to the right) less that along -45°; across: along the rows less along the columns; both px², each
 * with one sigma of spread, by the scatter among tiles. Null where too few tiles have detail in enough rings.
 * The response sin(π f L) / (π f L) of a movement falls faster than a Gaussian's: its doubled angle grows like f² (1 + 0.33 (f L)² +
 * 0.19 (f L)⁴), by its series; rings from f L = 0.7 on are left out.
 * Source: own; blurs multiply their responses (ISO 12233 for the response), a Gaussian's is exp(-2 π² f² s²).
 */
export function slantedBlur(picture: Picture, outline: Outline): SlantedBlur | null {
  const window = hannWindow(TILE);
  const transform = new TileTransform(TILE);
  const tiles = pictureTiles(picture, outline, 1, window).map(({ samples }) => samples);
  const roundingPower = (STEPS * stepOf(picture) ** 2 * window.reduce((sum, weight) => sum + weight * weight, 0)) / 12;
  const rings: Rings[] = [];
  for (let index = 0; index + 1 < tiles.length; index += 2)
    for (const spectrum of transform.pair(tiles[index] as Float32Array, tiles[index + 1] as Float32Array))
      rings.push(ringsOf(spectrum, roundingPower));
  let lengthPx = 0;
  let found: SlantedBlur | null = null;
  for (let pass = 0; pass < PASSES; pass++) {
    found = overTiles(rings, lengthPx);
    if (!found) return null;
    lengthPx = Math.sqrt(12 * Math.hypot(found.along.value, found.across.value));
  }
  return found;
}

export type SlantedBlur = { readonly along: Told; readonly across: Told; readonly tiles: number };
type Told = { readonly value: number; readonly spread: number };
type Ring = { readonly along: number; readonly across: number; readonly isClear: boolean };
/** By cycles per tile. */
type Rings = readonly Ring[];

const FIRST_RING = 3;
/** 0.4 cycles per px: beyond it little is left of most captures, and JPEG takes away what is. */
const LAST_RING = 26;
/** Rings of detail clear of noise that a tile must have, and that are read of it however far it moved. */
const FEWEST_CLEAR = 10;
const FEWEST_RINGS = 5;
const FEWEST_TILES = 12;
const PASSES = 3;
const MOST_OF_LENGTH = 0.7;
/** Share of a ring's power that must not be noise. */
const LEAST_SHARE = 0.75;
/** Rounding to whole codes of smooth tones makes steps, which are coarser than noise: by so much its power is thought larger. */
const STEPS = 16;
/** Euler's constant: by so much the mean logarithm of a power that scatters like chi-square of two degrees is below that of its mean. */
const EULER = 0.5772;

function ringsOf(spectrum: Float64Array, roundingPower: number): Rings {
  const sums = Array.from({ length: LAST_RING + 1 }, () => ({ count: 0, log: 0, along: 0, across: 0, weight: 0 }));
  const corners = [0, 0];
  let cornerBins = 0;
  for (let ky = 0; ky < TILE / 2; ky++)
    for (let kx = -TILE / 2 + 1; kx < TILE / 2; kx++) {
      if (ky === 0 && kx <= 0) continue;
      const at = 2 * (ky * TILE + ((kx + TILE) % TILE));
      const power = 1e-9 + (spectrum[at] as number) ** 2 + (spectrum[at + 1] as number) ** 2;
      const radius = Math.hypot(kx, ky);
      if (radius > CORNER * TILE) {
        corners[kx > 0 ? 0 : 1] = (corners[kx > 0 ? 0 : 1] as number) + power;
        cornerBins++;
      }
      const ring = sums[Math.round(radius)];
      if (!ring) continue;
      const [cos2, sin2] = [(kx * kx - ky * ky) / radius ** 2, (2 * kx * ky) / radius ** 2];
      const log = Math.log(power);
      ring.count++;
      ring.log += log;
      ring.along += log * sin2;
      ring.across += log * cos2;
      ring.weight += sin2 * sin2;
    }
  const noise = Math.max((2 * Math.min(...corners)) / cornerBins, roundingPower);
  return sums.map(({ count, log, along, across, weight }) => {
    // what is added evenly to all directions makes their differences less by its share
    const share = 1 - noise / Math.exp(log / count + EULER);
    return { along: along / weight / share, across: across / (count - weight) / share, isClear: share > LEAST_SHARE };
  });
}

/** What one code is of the light at a middle tone, in natural logarithms. */
function stepOf({ linearOf: [, green] }: Picture): number {
  const at = green.findIndex((light) => light > MIDDLE_TONE);
  return Math.log((green[at] as number) / (green[at - 1] as number));
}

const MIDDLE_TONE = 0.3;

/** From so many cycles per px on only noise is thought to be left. */
const CORNER = 0.58;

function overTiles(tiles: readonly Rings[], lengthPx: number): SlantedBlur | null {
  const slopes = tiles.flatMap((rings) => slopesOf(rings, lengthPx) ?? []);
  if (slopes.length < FEWEST_TILES) return null;
  const told = (of: (slope: { along: number; across: number }) => number): Told => {
    const values = slopes.map(of);
    const value = median(values);
    // the median of normal values scatters 1.25 times as much as their mean
    return { value, spread: (1.25 * robustSpread(values, value)) / Math.sqrt(values.length) };
  };
  return { along: told(({ along }) => along), across: told(({ across }) => across), tiles: slopes.length };
}

/** Differences of variance, px², by the slopes of one tile; null where too few rings from the first on are clear of noise. */
function slopesOf(rings: Rings, lengthPx: number): { along: number; across: number } | null {
  const unclear = rings.findIndex((ring, k) => k >= FIRST_RING && !ring.isClear);
  const lastClear = unclear < 0 ? LAST_RING : unclear - 1;
  if (lastClear - FIRST_RING + 1 < FEWEST_CLEAR) return null;
  const ofLength = Math.max(FIRST_RING + FEWEST_RINGS - 1, Math.floor((MOST_OF_LENGTH * TILE) / lengthPx));
  const end = Math.min(lastClear, ofLength);
  let n = 0;
  let sx = 0;
  let sxx = 0;
  const sums = { along: { y: 0, xy: 0 }, across: { y: 0, xy: 0 } };
  for (let k = FIRST_RING; k <= end; k++) {
    const ofMovement = ((k / TILE) * lengthPx) ** 2;
    const x = (k / TILE) ** 2 * (1 + 0.33 * ofMovement + 0.19 * ofMovement ** 2);
    n += k;
    sx += k * x;
    sxx += k * x * x;
    for (const name of ["along", "across"] as const) {
      const y = (rings[k] as Ring)[name];
      sums[name].y += k * y;
      sums[name].xy += k * x * y;
    }
  }
  const slope = ({ y, xy }: { y: number; xy: number }) => (n * xy - sx * y) / (n * sxx - sx * sx);
  const variances = ({ y, xy }: { y: number; xy: number }) => -slope({ y, xy }) / (2 * Math.PI ** 2);
  return { along: variances(sums.along), across: variances(sums.across) };
}
