import { homographyFromMm, inverse, project, scaleAt } from "../homography.ts";
import { median, quantile } from "../numbers/robust.ts";
import { fitSurface, inverted, SURFACE_TERMS, type ValueAt } from "../numbers/smooth-surface.ts";
import type { Outline } from "../reading.ts";
import type { SizeMm } from "../size-as-seen.ts";
import { TILE } from "./picture-tiles.ts";
import { LAST_RING, type TileRings } from "./tile-rings.ts";

/** Blur inside the picture, tile by tile, as far as its content lets it be told. */
export type InsideBlur = {
  /** no capture is sharper at this sampling, mm² */
  readonly leastVariance: number;
  /** the middle one of the tiles' variances */
  readonly level: number;
  /** where each tile lies on the sheet (-1 to 1) and the variance of its blur, mm², give or take one amount for all */
  readonly tiles: readonly ValueAt[];
  /** second-order surface through them, and the inverse of its covariance, what content may feign included */
  readonly terms: readonly number[];
  readonly information: readonly number[];
};

/** Ring from which detail is fine: about 0.1 cycles per sample. */
const FIRST_FINE = 6;
const FEWEST_RINGS = 8;
const FEWEST_TILES = 20;
/** Power of what pictures show falls with this power of the frequency; see D. J. Field (1987), who found 2 for its mean over photographs. */
const FALL_OF_CONTENT = 2.5;
/** Share of the tiles that reach less far than all are read to. */
const REACH_QUANTILE = 0.25;
/** The level is as unsure as the fall of content is: by 0.5 of its exponent, which is 0.15 samples² over these rings. */
const LEVEL_SPREAD = 0.3;
/** No capture is sharper than a pixel with some lens before it. */
const LEAST_LEVEL = 0.2;
/**
 * Content changes over the picture as from tile to tile: of 26 pictures without any fall-off (drawn, rendered, and photographs of 1883)
 * the slopes of the surface were up to as large as the scatter of the tiles (root mean square 0.6 to 1.1), its bends up to twice (1.2 to 2.0).
 */
const FEIGNED_SLOPE = 1;
const FEIGNED_BEND = 1.6;
/** Drawn pictures scatter less than any photograph, samples². */
const LEAST_SCATTER = 0.1;

/**
 * Fine detail inside the picture as blur, on a grid of tiles. The logarithm of a tile's power, noise taken off, less what pictures show at
 * all times (a power of the frequency f), falls by 4 π² f² s² through a blur of variance s²; its height, the local contrast, drops out. All
 * tiles are read up to one frequency, that which three quarters of them show clear of noise, since what content does differently at
 * different frequencies would look like blur.
 *
 * Content itself can be soft: a sky, a background out of focus. So slopes over the picture are as unsure as the scatter between tiles, however many
 * there are, and what edges say outweighs them wherever edges can be read. From one capture this is a hint.
 *
 * Null where fewer than 20 tiles show detail clear of noise.
 * Sources: D. J. Field, "Relations between the statistics of natural images and the response properties of cortical cells", 1987 (fall of
 * content, from memory); a Gaussian's response is exp(-2 π² f² s²); the rest own.
 * @param stepPx frame pixels to a sample of the tiles
 */
export function insideBlur(
  tiles: readonly TileRings[],
  stepPx: number,
  outline: Outline,
  { widthMm, heightMm }: SizeMm,
): InsideBlur | null {
  const reaches = tiles.map(lastClear);
  const enough = reaches.filter((reach) => reach - FIRST_FINE + 1 >= FEWEST_RINGS);
  if (enough.length < FEWEST_TILES) return null;
  const reach = quantile(enough, REACH_QUANTILE);
  const map = homographyFromMm(widthMm, heightMm, outline.sheet);
  if (!map.every(Number.isFinite)) return null;
  const back = inverse(map);
  const middle = scaleAt(map, widthMm / 2, heightMm / 2);
  const mm2PerSample = stepPx ** 2 / (middle.alongX * middle.alongY);
  const values = tiles.flatMap((tile, index): ValueAt[] => {
    const last = Math.min(reach, reaches[index] as number);
    if (last - FIRST_FINE + 1 < FEWEST_RINGS) return [];
    const mm = project(back, tile.middle.x, tile.middle.y);
    const here = scaleAt(map, mm.x, mm.y);
    const mm2 = stepPx ** 2 / (here.alongX * here.alongY);
    return [{ u: (2 * mm.x) / widthMm - 1, v: (2 * mm.y) / heightMm - 1, value: varianceOf(tile, last) * mm2 }];
  });
  const surface = fitSurface(values, SURFACE_TERMS);
  if (!surface) return null;
  const scatter = Math.max(surface.scatter, LEAST_SCATTER * mm2PerSample);
  const feigned = [
    LEVEL_SPREAD * mm2PerSample,
    ...[1, 1].map(() => FEIGNED_SLOPE * scatter),
    ...[1, 1, 1, 1].map(() => FEIGNED_BEND * scatter),
  ];
  const covariance = surface.unitCovariance.map((value, at) => {
    const row = Math.floor(at / SURFACE_TERMS);
    return scatter ** 2 * value + (at % SURFACE_TERMS === row ? (feigned[row] as number) ** 2 : 0);
  });
  const information = inverted(covariance, SURFACE_TERMS);
  const leastVariance = LEAST_LEVEL * mm2PerSample;
  // content that holds more fine detail than most looks sharper than anything can be
  const raised = Math.max(0, leastVariance - median(values.map(({ value }) => value)));
  const tilesAtLevel = values.map((tile) => ({ ...tile, value: tile.value + raised }));
  const terms = surface.terms.map((term, index) => (index === 0 ? term + raised : term));
  const level = median(tilesAtLevel.map(({ value }) => value));
  return information && { leastVariance, level, tiles: tilesAtLevel, terms, information };
}

/** Last ring up to which all from the first fine one on are clear of noise. */
function lastClear({ rings }: TileRings): number {
  const unclear = rings.findIndex((ring, k) => k >= FIRST_FINE && !ring.isClear);
  return unclear < 0 ? LAST_RING : unclear - 1;
}

/** Variance of the blur, samples², by the slope over f² up to a ring; rings count by the values in them. */
function varianceOf({ rings }: TileRings, last: number): number {
  let n = 0;
  let sx = 0;
  let sxx = 0;
  let sy = 0;
  let sxy = 0;
  for (let k = FIRST_FINE; k <= last; k++) {
    const f = k / TILE;
    const x = f * f;
    const y = (rings[k] as TileRings["rings"][number]).log + FALL_OF_CONTENT * Math.log(f);
    n += k;
    sx += k * x;
    sxx += k * x * x;
    sy += k * y;
    sxy += k * x * y;
  }
  return -(n * sxy - sx * sy) / (n * sxx - sx * sx) / (4 * Math.PI ** 2);
}
