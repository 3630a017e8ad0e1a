import type { Place } from "../laying/fine-source.ts";
import type { Fine } from "../laying/lay-finely.ts";
import type { CrossSpectra } from "../numbers/cross-spectra.ts";
import type { Point } from "../picture.ts";

/** What two captures of a set have in common besides the print: one exposure saved twice, or noise of whatever cause; null for nothing. */
export type Bond = "same-exposure" | "shared-noise";
export type Shared = (i: number, j: number) => Bond | null;

/** Why two such captures cannot corroborate each other, in words for the keeper. */
export const BOND_IN_WORDS: Readonly<Record<Bond, string>> = {
  "same-exposure":
    "it shares fine noise with another capture and lies on it pixel by pixel, as copies of one capture do; a new capture, with the print turned by a quarter, would tell",
  "shared-noise":
    "it shares fine noise with another capture, as copies of one capture do, and captures between which the print was not moved; a capture with the print turned by a quarter would tell",
};

/** Just below half the sampling of the poorer capture, as shares of it: hardly any device shows detail there, so what agrees is noise. */
const FINEST = { from: 0.75, to: 0.95 } as const;
/** Coherence there of a copy at another size; captures of a very detailed print by sharp devices stayed below 0.7. */
const OF_COPIES = 0.9;
/** Share of the weaker one's power there that both have in common: 0.2 to 1 for copies and repeated noise, 0.01 where noise is each one's own. */
const OF_REPEATED_NOISE = 0.1;
/** Such a share is no pattern of a sensor, which is the smaller part of its noise, but the same exposure. */
const OF_ONE_EXPOSURE = 0.5;
/** A frame is another one shifted and turned by quarters where all places agree so well. */
const SAME_RASTER_PX = 0.5;
const PROBES = 5;

/**
 * Captures that share their noise: copies of one capture, and captures in which the print lay at one place of the frame while
 * the sensor's own pattern shows. Told by what both have in common in the finest patterns the poorer one can hold; most strictly where
 * one frame is the other but for a shift and quarter turns, as with two saves of one file.
 * Own method; thresholds own, from drawn captures.
 */
export function sharedBy(fines: readonly Fine[], spectra: CrossSpectra): Shared {
  return (i, j) => {
    const { cross, one, other } = finestPowers(spectra, fines, i, j);
    if (cross ** 2 > OF_COPIES * one * other) return "same-exposure";
    if (!isOneRaster(fines[i] as Fine, fines[j] as Fine)) return null;
    const share = cross / Math.min(one, other);
    if (share > OF_ONE_EXPOSURE) return "same-exposure";
    if (share > OF_REPEATED_NOISE) return "shared-noise";
    return null;
  };
}

function finestPowers(spectra: CrossSpectra, fines: readonly Fine[], i: number, j: number) {
  const [first, second] = [fines[i] as Fine, fines[j] as Fine];
  const half = Math.min(first.ownPxPerMm, second.ownPxPerMm, first.pxPerMm) / first.pxPerMm / 2;
  let cross = 0;
  let one = 0;
  let other = 0;
  for (const [band, f] of spectra.cyclesPerPx.entries()) {
    if (f < FINEST.from * half || f > FINEST.to * half) continue;
    cross += spectra.product(i, j)[band] as number;
    one += spectra.product(i, i)[band] as number;
    other += spectra.product(j, j)[band] as number;
  }
  return { cross: Math.max(0, cross), one, other };
}

/** Whether the pixels of both frames fall on each other, after a shift and turns by quarters. */
function isOneRaster(one: Fine, other: Fine): boolean {
  const pairs = Array.from({ length: PROBES * PROBES }, (_, probe) => {
    const x = (((probe % PROBES) + 0.5) / PROBES) * one.plane.width;
    const y = ((Math.floor(probe / PROBES) + 0.5) / PROBES) * one.plane.height;
    return { here: placeIn(one, x, y), there: placeIn(other, x, y) };
  });
  const [first] = pairs as [(typeof pairs)[number]];
  return [0, 1, 2, 3].some((quarters) =>
    pairs.every(({ here, there }) => {
      const went = turned({ x: here.x - first.here.x, y: here.y - first.here.y }, quarters);
      return Math.hypot(there.x - first.there.x - went.x, there.y - first.there.y - went.y) < SAME_RASTER_PX;
    }),
  );
}

function placeIn(fine: Fine, x: number, y: number): Point {
  const place: Place = { x: 0, y: 0 };
  fine.placeOf(x, y, place);
  return place;
}

const turned = ({ x, y }: Point, quarters: number): Point => (quarters === 0 ? { x, y } : turned({ x: -y, y: x }, quarters - 1));
