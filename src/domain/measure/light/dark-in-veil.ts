import { commonPlaces } from "../laying/matched.ts";
import { quantile, robustSpread } from "../numbers/robust.ts";
import type { GridPlane } from "../planes/grid-plane.ts";
import { opened, patchesOf } from "../planes/mask.ts";
import { accountOf, amongAlike, closest } from "./plain-places.ts";
import { shineShapes } from "./shine-shape.ts";
import { POWERS, type Samples, samplesOf, scaleOf, type VeilFit } from "./veil-fit.ts";

/** A place where the veil over a capture is missing: what stood in the way of the light that the print mirrors. */
export type DarkInVeil = {
  /** 1 where it is */
  readonly mask: Uint8Array;
  /** light that is missing, linear; NaN where it was not looked at */
  readonly missing: GridPlane;
  /** light of the veil round it, linear */
  readonly veil: number;
  /** share of the veil that is missing in it */
  readonly missingShare: number;
};

/** More would fix the veil no better. */
const MOST_PLACES = 2500;
const FEWEST_PLACES = 400;
const START_SHARE = 0.5;
/** Linear light that a veil must have for anything to be missing in it. */
const LEAST_VEIL = 0.012;
/** Tone curves of two devices; a stranger one stands for something else. */
const MOST_POWER = 1.3;
/** As much of the veil must be missing, and it must stand out from the scatter so many times. */
const LEAST_MISSING = 0.4;
const TIMES_SCATTER = 4;
const OPENINGS = 2;
/** Of the places compared. */
const SMALLEST = 0.02;
const LARGEST = 0.35;
/** What is left beside a large reflection lies along the picture's rim or round the reflection; camera and hand do not. */
const LEAST_SOLID = 0.6;
const MOST_CUT_OFF = 0.4;
/** In the patch the print must show tones at least this share of the veil apart, or shadow and missing veil look the same. */
const LEAST_RANGE = 0.3;
/** By this share the light that the print itself sends may differ in the patch; a shadow takes more. */
const LIGHT_KEPT = 0.15;
/** No more can be missing than there is, but for errors, as a share of the veil; where more is, the other capture shines. */
const MORE_THAN_THERE = 0.25;
/** No shadow takes more light than the print sends; with room for errors. */
const MORE_THAN_A_SHADOW = 1.2;
const SURE_MISSING = 0.6;

/**
 * The largest dark shape in the veil over each of several planes of linear luminance laid on each other, or null. Against each other plane
 * Y = L · Y_other^power + b is fitted (veil-fit.ts), b being the veil that this one has more. A patch that lies below that against all others is
 * looked at by itself: Y = s · L · Y_other^power + b'. A shadow takes of the light that falls on the print, so that s is less and b' stays b; camera,
 * phone or hand before a bright wall take of the light that is mirrored, so that s stays and b' falls. Where more light is missing than the
 * print sends there, no shadow took it. Where the print has too few tones in the patch neither is told.
 * Source: own.
 */
export function darkInVeils(planes: readonly GridPlane[], marginPx: number): (DarkInVeil | null)[] {
  const places = commonPlaces(planes, marginPx);
  if (places.length < FEWEST_PLACES) return planes.map(() => null);
  const stride = Math.ceil(places.length / MOST_PLACES);
  const chosen = places.filter((_, index) => index % stride === 0);
  const samples = planes.map((plane) => samplesOf(plane, chosen));
  return planes.map((plane, index) => {
    const others = planes.flatMap((other, at) => (at === index ? [] : [{ plane: other, samples: samples[at] as Samples }]));
    return darkIn({ plane, samples: samples[index] as Samples }, others, places, marginPx);
  });
}

type Sampled = { readonly plane: GridPlane; readonly samples: Samples };

function darkIn(one: Sampled, others: readonly Sampled[], places: Int32Array, marginCells: number): DarkInVeil | null {
  const { width, height, data } = one.plane;
  const below = new Uint8Array(data.length);
  for (const at of places) below[at] = 1;
  let nearest: { expected: Float64Array; veil: number } | null = null;
  for (const other of others) {
    if (!one.samples.hasDarkTones && !other.samples.hasDarkTones) return null;
    const fit = veilBetween(one.samples, other.samples);
    if (!fit || fit.offset < LEAST_VEIL || Math.abs(Math.log(fit.power)) > Math.log(MOST_POWER)) return null;
    const lit = lightWithoutVeil(fit, other.plane, places);
    const residuals = Float64Array.from(places, (at, k) => (data[at] as number) - fit.offset - (lit[k] as number));
    const limit = Math.max(LEAST_MISSING * fit.offset, TIMES_SCATTER * robustSpread(residuals, 0));
    places.forEach((at, k) => {
      if ((residuals[k] as number) > -limit) below[at] = 0;
    });
    if (!nearest || fit.offset < nearest.veil) nearest = { expected: lit, veil: fit.offset };
  }
  if (!nearest) return null;
  const [patch] = patchesOf(opened(below, width, height, OPENINGS), width, height).sort((a, b) => b.length - a.length);
  if (!patch || patch.length < SMALLEST * places.length || patch.length > LARGEST * places.length) return null;
  const { expected, veil } = nearest;
  const lightAt = new Map<number, number>();
  for (const [k, at] of places.entries()) lightAt.set(at, expected[k] as number);
  const left = veilLeft(
    patch.map((at) => lightAt.get(at) as number),
    patch.map((at) => data[at] as number),
    veil,
  );
  if (left === null) return null;
  const mask = new Uint8Array(data.length);
  for (const at of patch) mask[at] = 1;
  const missing = new Float32Array(data.length).fill(Number.NaN);
  for (const [at, light] of lightAt) missing[at] = light + veil - (data[at] as number);
  const seen = { light: { width, height, data: missing }, mask, marginCells };
  const [shape] = shineShapes(seen);
  if (!shape || shape.solidity < LEAST_SOLID || shape.cutOff > MOST_CUT_OFF) return null;
  return { mask, missing: seen.light, veil, missingShare: 1 - left / veil };
}

/** The veil of one over the other, started from the brighter half of the places that are alike in the other: there nothing is missing. */
function veilBetween(one: Samples, other: Samples): VeilFit | null {
  const brighter = amongAlike(one, other, START_SHARE, (ratio, limit) => ratio >= limit);
  const account = accountOf(one, other, brighter);
  if (!account) return null;
  const scale = scaleOf(one);
  const weights = scale.map((value, index) => (account.isPlain[index] === 1 ? value * value : 0));
  return closest(POWERS, one, other, weights, scale);
}

/** L · Y_other^power at every place. */
function lightWithoutVeil({ surface, power }: VeilFit, { width, height, data }: GridPlane, places: Int32Array): Float64Array {
  const [c0, c1, c2, c3, c4, c5] = surface as [number, number, number, number, number, number];
  return Float64Array.from(places, (at) => {
    const u = (2 * (at % width)) / (width - 1) - 1;
    const v = (2 * Math.floor(at / width)) / (height - 1) - 1;
    return (c0 + c1 * u + c2 * v + c3 * u * u + c4 * u * v + c5 * v * v) * Math.max(0, data[at] as number) ** power;
  });
}

/** The veil that is left in a patch; null where it is a shadow, or where the patch does not tell. */
function veilLeft(light: readonly number[], seen: readonly number[], veil: number): number | null {
  const count = light.length;
  const [meanLight, meanSeen] = [light.reduce((sum, value) => sum + value, 0) / count, seen.reduce((sum, value) => sum + value, 0) / count];
  const isMissing = (left: number) => left < (1 - LEAST_MISSING) * veil && left > -MORE_THAN_THERE * veil;
  const ifNoShadow = meanSeen - meanLight;
  if (!isMissing(ifNoShadow) && ifNoShadow < 0) return null;
  if (veil - ifNoShadow > MORE_THAN_A_SHADOW * meanLight) return isMissing(ifNoShadow) ? ifNoShadow : null;
  if (quantile(light, 0.9) - quantile(light, 0.1) < LEAST_RANGE * veil) return null;
  let [products, squares] = [0, 0];
  light.forEach((value, k) => {
    products += (value - meanLight) * ((seen[k] as number) - meanSeen);
    squares += (value - meanLight) ** 2;
  });
  const kept = products / squares;
  const left = meanSeen - kept * meanLight;
  return Math.abs(kept - 1) <= LIGHT_KEPT && isMissing(left) ? left : null;
}

/** Whether nearly all of the veil is missing, as behind something black. */
export const isSureDark = ({ missingShare }: DarkInVeil): boolean => missingShare >= SURE_MISSING;
