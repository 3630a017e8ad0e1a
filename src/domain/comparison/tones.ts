import { lightnessOf } from "../measure/colour/lab.ts";
import { linearToSrgb, srgbToLinear } from "../measure/colour/srgb.ts";
import { toneMap } from "../measure/laying/tone-map.ts";
import { robustSpread } from "../measure/numbers/robust.ts";
import type { GridPlane } from "../measure/planes/grid-plane.ts";

/** Points of a tone curve, at equal steps of the code. */
export const CURVE_POINTS = 65;
const FEWEST_PLACES = 200;
const MOST_PLACES = 20_000;
const DARKEST = 0.002;
/** Places at either end of a capture's tones are clipped in it: they say nothing of the curve. */
const TOLD = { darkest: DARKEST, lightest: 0.98 } as const;

/** A place that is off the first curve by more than so many spreads (of log light) is not of the print alone. */
const MOST_SPREADS = 3;
const LEAST_SPREAD = 0.03;

/**
 * The curve that brings a capture's tones to another's: sRGB codes 0..1 at 65 equal steps of the capture's own codes, rising throughout;
 * the conditional median over places of the print (tone-map.ts), so that glare on a part of the picture does not bend it. Null where too
 * few places tell.
 * @param places px of both planes (linear luminance, one size)
 */
export function toneCurve(from: GridPlane, to: GridPlane, places: Int32Array): number[] | null {
  const told = places.filter((at) => isTold(from.data[at] as number) && isTold(to.data[at] as number));
  if (told.length < FEWEST_PLACES) return null;
  const stride = Math.ceil(told.length / MOST_PLACES);
  const chosen = told.filter((_, index) => index % stride === 0);
  const mapOver = (at: Int32Array) =>
    toneMap(
      Float32Array.from(at, (each) => from.data[each] as number),
      Float32Array.from(at, (each) => to.data[each] as number),
    );
  // what one of both shows and the other does not, such as glare, is left out once a first curve tells it
  const first = mapOver(chosen);
  const off = Float32Array.from(chosen, (at) => Math.log((to.data[at] as number) / Math.max(DARKEST, first(from.data[at] as number))));
  const most = MOST_SPREADS * Math.max(LEAST_SPREAD, robustSpread(off, 0));
  const alike = chosen.filter((_, index) => Math.abs(off[index] as number) <= most);
  const map = alike.length < FEWEST_PLACES ? first : mapOver(alike);
  let lightest = 0;
  return Array.from({ length: CURVE_POINTS }, (_, index) => {
    const light = map(srgbToLinear(index / (CURVE_POINTS - 1)));
    lightest = Math.max(lightest, linearToSrgb(Math.min(1, Math.max(0, light))));
    return Number(lightest.toFixed(4));
  });
}

const isTold = (light: number) => light > TOLD.darkest && light < TOLD.lightest;

/** Steps of L* that a histogram counts in. */
export const LIGHTNESS_STEP = 2;

/** How much of the places, 0..1, lies in each step of two L*; from 0 to 100. */
export function lightnessShares({ data }: GridPlane, places: Int32Array): number[] {
  const counts = new Array<number>(100 / LIGHTNESS_STEP).fill(0);
  for (const at of places) {
    const step = Math.min(counts.length - 1, Math.max(0, Math.floor(lightnessOf(data[at] as number) / LIGHTNESS_STEP)));
    counts[step] = (counts[step] as number) + 1;
  }
  return counts.map((count) => Number((count / Math.max(1, places.length)).toFixed(5)));
}
