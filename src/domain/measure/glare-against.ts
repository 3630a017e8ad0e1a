import type { GridPlane } from "./grid-plane.ts";
import { lightnessOf } from "./lab.ts";
import { opened } from "./mask.ts";
import { median, robustSpread } from "./robust.ts";
import { toneMap } from "./tone-map.ts";

export type Glare = {
  /** share of the places compared, percent */
  readonly percent: number;
  /** 1 where this capture shines */
  readonly mask: Uint8Array;
  /** largest excess, L* */
  readonly worstLightness: number;
};

/** Excess in linear light that always counts as within the scatter of two captures. */
const LEAST_EXCESS = 0.01;
/** An excess must be this many times the scatter of the differences. */
const TIMES_SCATTER = 4;
const OPENINGS = 2;
const FEWEST_PLACES = 400;

/**
 * Where a plane of linear luminance is brighter than all others once their tones are mapped onto it by the conditional
 * median: the difference from the brightest of the others, less its own median, above 0.01 and above four times its
 * scatter, in patches that 5 × 5 px fit into. Null when too few places are seen in all planes.
 */
export function glareAgainst({ width, height, data }: GridPlane, others: readonly Float32Array[], marginPx: number): Glare | null {
  const places = commonPlaces(width, height, [data, ...others], marginPx);
  if (places.length < FEWEST_PLACES) return null;
  const here = Float32Array.from(places, (at) => data[at] as number);
  const expected = new Float32Array(places.length).fill(Number.NEGATIVE_INFINITY);
  for (const other of others) {
    const there = Float32Array.from(places, (at) => other[at] as number);
    const map = toneMap(there, here);
    if (!map) return null;
    for (let index = 0; index < expected.length; index++)
      expected[index] = Math.max(expected[index] as number, map(there[index] as number));
  }
  const raw = here.map((value, index) => value - (expected[index] as number));
  const offset = median(raw);
  const limit = Math.max(LEAST_EXCESS, TIMES_SCATTER * robustSpread(raw, offset));
  const candidates = new Uint8Array(width * height);
  places.forEach((at, index) => {
    if ((raw[index] as number) - offset > limit) candidates[at] = 1;
  });
  const mask = opened(candidates, width, height, OPENINGS);
  let worst = 0;
  let count = 0;
  places.forEach((at, index) => {
    if (mask[at] !== 1) return;
    count++;
    worst = Math.max(worst, lightnessOf(here[index] as number) - lightnessOf(Math.max(0, (expected[index] as number) + offset)));
  });
  return { percent: (100 * count) / places.length, mask, worstLightness: worst };
}

/** Places inside the margin that every plane holds. */
function commonPlaces(width: number, height: number, planes: readonly Float32Array[], marginPx: number): Int32Array {
  const places: number[] = [];
  for (let y = marginPx; y < height - marginPx; y++) {
    for (let x = marginPx; x < width - marginPx; x++) {
      const at = y * width + x;
      if (planes.every((plane) => !Number.isNaN(plane[at]))) places.push(at);
    }
  }
  return Int32Array.from(places);
}
