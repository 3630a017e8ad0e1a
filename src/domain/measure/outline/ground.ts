import type { ReducedCopy } from "./reduced-copy.ts";
import type { Region } from "./region.ts";

/**
 * How unlike the ground each pixel of a region's box is, in standard deviations of the ground, capped at 25; 0 outside
 * the region. The ground is what the region's ring shows.
 */
export type GroundDistance = Float32Array;

export const FARTHEST = 25;

/** Added to the variances of L*, a*, b* and texture: a cleaner ground than this does not exist on real beds. */
export const VARIANCE_FLOOR = [1, 0.5, 0.5, 0.3] as const;

/** Fewer ring pixels than this say nothing about a ground. */
export const FEWEST_RING_PX = 40;

const SAMPLE = 3000;

/** What the ring shows: pixels thinned to about 3,000, their sides and their four features (L*, a*, b*, texture). */
export type RingSample = { readonly at: Int32Array; readonly side: Uint8Array; readonly features: readonly Float32Array[] };

export function sampleRing(copy: ReducedCopy, region: Region): RingSample {
  const count = Math.min(region.ring.length, SAMPLE);
  const step = region.ring.length / Math.max(1, count);
  const at = new Int32Array(count);
  const side = new Uint8Array(count);
  for (let index = 0; index < count; index++) {
    at[index] = region.ring[Math.floor(index * step)] as number;
    side[index] = region.ringSide[Math.floor(index * step)] as number;
  }
  const features = [copy.lightness, copy.a, copy.b, copy.texture].map((plane) => {
    const values = new Float32Array(count);
    for (let index = 0; index < count; index++) values[index] = plane[at[index] as number] as number;
    return values;
  });
  return { at, side, features };
}
