import { median, robustSpread } from "../numbers/robust.ts";
import { TILE } from "./picture-tiles.ts";
import { FIRST_RING, LAST_RING, type Ring, type TileRings } from "./tile-rings.ts";

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
export function slantedBlur(tiles: readonly TileRings[]): SlantedBlur | null {
  const rings = tiles.map((tile) => tile.rings);
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
type Rings = readonly Ring[];

/** Rings of detail clear of noise that a tile must have, and that are read of it however far it moved. */
const FEWEST_CLEAR = 10;
const FEWEST_RINGS = 5;
const FEWEST_TILES = 12;
const PASSES = 3;
const MOST_OF_LENGTH = 0.7;

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
