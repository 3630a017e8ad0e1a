import { lightnessOf } from "../colour/lab.ts";
import { commonPlaces, matchedOnto } from "../laying/matched.ts";
import { median, quantile, robustSpread } from "../numbers/robust.ts";
import type { GridPlane } from "../planes/grid-plane.ts";
import { grown, opened, patchesOf } from "../planes/mask.ts";
import { reshaped } from "../planes/reshaped.ts";
import { plainOfTwo } from "./plain-places.ts";

export type Glare = {
  /** share of the places compared, percent */
  readonly percent: number;
  /** share of the whole plane that shines at the least, percent: what was not compared does not count, nor what error and blur may have added along rims */
  readonly leastPercent: number;
  /** share of what shines that only one other capture tells, the rest shining there too; 1 of two captures */
  readonly byOneShare: number;
  /** 1 where this capture shines */
  readonly mask: Uint8Array;
  /** largest excess, L* */
  readonly worstLightness: number;
  /** light that it has more than the others let expect, linear; NaN where that is not known. What is clipped counts as having all of it */
  readonly added: GridPlane;
};

/** Excess in linear light that always counts as within the scatter of two captures. */
const LEAST_EXCESS = 0.01;
/** An excess must be this many times the scatter of the differences. */
const TIMES_SCATTER = 4;
const OPENINGS = 2;
/**
 * A patch that is nowhere this much above the limit, and by this share of the light that is due there, over so many places, is what two devices
 * make of one print: gloss, texture and tone that no common map holds.
 */
const STRONG_TIMES = 2.5;
const STRONG_SHARE = 0.1;
const FEWEST_STRONG = 9;
/** What surely shines is this much above the limit, since tone curve and exposure make small light larger; and by so much blur may have widened it, px. */
const SURE_TIMES = 1.5;
const RIM_PX = 1;
const LOOKS = 3;
/** Round a shining patch its faint skirts are left out too. */
const KEEP_AWAY_PX = 6;
/** Share of the places that must be left to map tones by. */
const LEAST_TRUSTED = 0.3;
const FEWEST_PLACES = 400;
/** Linear light; near enough to white for lossy compression and a mean of pixels. */
const CLIPPED = 0.96;
const CLIPPED_IN_PART = 0.7;
const SOME_CLIPPED = 0.01;
const NEAR_CLIPPED_PX = 2;
/** What tones brighter than nearly all that the map was made by become is not known. */
const KNOWN_SHARE = 0.998;
const KNOWN_BEYOND = 1.02;

/** Why glare could not be found by comparison. */
export type NoGlare = "too little seen" | "not told";

/**
 * For each of several planes of linear luminance (one size, laid on each other): where it is brighter than all others
 * once their tones are mapped onto it by the conditional median. That is the difference from the brightest of the others,
 * less its own median, above 0.01 and above four times its scatter, in patches that 5 × 5 px fit into and that are somewhere much brighter than that. A first
 * look, by places that shine in none (plain-places.ts), says which places shine in any of them; further looks leave those out when they map the tones, and,
 * of three or more, ask no capture there that shines itself: the others do. Where another is clipped to white, or brighter than any tone that can be
 * mapped, it cannot say that this one shines.
 *
 * "not told": of two planes one shines, and which is not to be seen.
 */
export function glareAmong(planes: readonly GridPlane[], marginPx: number): Glare[] | NoGlare {
  const places = commonPlaces(planes, marginPx);
  const first = planes[0];
  if (!first || places.length < FEWEST_PLACES) return "too little seen";
  const clipped = planes.map(clippedIn);
  const unclipped = places.filter((at) => clipped.every((mask) => mask[at] === 0));
  if (unclipped.length < FEWEST_PLACES) return "too little seen";
  const plain = plainPlaces(planes, unclipped);
  if (!plain) return "not told";
  let trusted: Int32Array = plain;
  let found: Glare[] = [];
  for (let look = 0; look < LOOKS; look++) {
    const lit = found.map(({ mask }) => grown(mask, first.width, first.height, KEEP_AWAY_PX));
    found = planes.map((plane) => shining(plane, planes, places, trusted, clipped, planes.length > 2 ? lit : []));
    const shines = new Uint8Array(first.data.length);
    for (const { mask } of found) for (let at = 0; at < mask.length; at++) if (mask[at] === 1) shines[at] = 1;
    const doubtful = grown(shines, first.width, first.height, KEEP_AWAY_PX);
    const rest = unclipped.filter((at) => doubtful[at] === 0);
    if (rest.length < LEAST_TRUSTED * unclipped.length) break;
    trusted = rest;
  }
  return found;
}

/**
 * 1 where a plane is at the upper end of its scale, or within reach of such a place by the smoothing. Where some of it is, coloured places have a channel
 * there well below white.
 */
function clippedIn({ width, height, data }: GridPlane): Uint8Array {
  const clipped = data.reduce((count, value) => (value > CLIPPED ? count + 1 : count), 0);
  const limit = clipped > SOME_CLIPPED * data.length ? CLIPPED_IN_PART : CLIPPED;
  return grown(
    Uint8Array.from(data, (value) => (value > limit ? 1 : 0)),
    width,
    height,
    NEAR_CLIPPED_PX,
  );
}

/** Places that shine in none: of two as the pair tells; of more, those that no pair which tells finds shining. Null where it is not told. */
function plainPlaces(planes: readonly GridPlane[], places: Int32Array): Int32Array | null {
  const [one, other, third] = planes as [GridPlane, GridPlane, GridPlane?];
  if (!third) return plainOfTwo(one, other, places);
  let plain = places;
  planes.forEach((plane, index) => {
    for (const before of planes.slice(0, index)) {
      const ofPair = plainOfTwo(before, plane, places);
      if (!ofPair || ofPair === places) continue;
      const isPlain = new Uint8Array(plane.data.length);
      for (const at of ofPair) isPlain[at] = 1;
      const rest = plain.filter((at) => isPlain[at] === 1);
      if (rest.length >= FEWEST_PLACES) plain = rest;
    }
  });
  return plain;
}

/** @param lit for each plane, 1 where it was found to shine before: there it cannot say that another does not; empty in the first look */
function shining(
  plane: GridPlane,
  planes: readonly GridPlane[],
  places: Int32Array,
  trusted: Int32Array,
  clipped: readonly Uint8Array[],
  lit: readonly Uint8Array[],
): Glare {
  const { width, height, data } = plane;
  const expected = new Float32Array(data.length).fill(Number.NEGATIVE_INFINITY);
  const told = new Uint8Array(data.length);
  for (const [index, other] of planes.entries()) {
    if (other === plane) continue;
    const { expectedAt } = matchedOnto(plane, other, trusted);
    const brightest =
      KNOWN_BEYOND *
      quantile(
        Float64Array.from(trusted, (at) => other.data[at] as number),
        KNOWN_SHARE,
      );
    for (const at of places) {
      if (lit[index]?.[at] === 1) continue;
      const isKnown = clipped[index]?.[at] === 0 && (other.data[at] as number) <= brightest;
      const value = isKnown ? expectedAt(at) : Number.POSITIVE_INFINITY;
      if (value > (expected[at] as number)) expected[at] = value;
      told[at] = (told[at] as number) + 1;
    }
  }
  const excess = (at: number) => (told[at] === 0 ? Number.NEGATIVE_INFINITY : (data[at] as number) - (expected[at] as number));
  const usual = new Float32Array(trusted.length);
  for (let index = 0; index < usual.length; index++) usual[index] = excess(trusted[index] as number);
  const offset = median(usual);
  const limit = Math.max(LEAST_EXCESS, TIMES_SCATTER * robustSpread(usual, offset));
  const candidates = new Uint8Array(data.length);
  for (const at of places) if (excess(at) - offset > limit) candidates[at] = 1;
  const mask = opened(candidates, width, height, OPENINGS);
  const isStrong = (at: number) => {
    const light = excess(at) - offset;
    return light > STRONG_TIMES * limit && light > STRONG_SHARE * ((data[at] as number) - light);
  };
  for (const patch of patchesOf(mask, width, height))
    if (patch.filter(isStrong).length < FEWEST_STRONG) for (const at of patch) mask[at] = 0;
  const added = new Float32Array(data.length).fill(Number.NaN);
  let [worst, count, byOne] = [0, 0, 0];
  for (const at of places) {
    const light = excess(at) - offset;
    if (Number.isFinite(light)) added[at] = (data[at] as number) > CLIPPED && mask[at] === 1 ? 1 : light;
    if (mask[at] !== 1) continue;
    count++;
    if (told[at] === 1) byOne++;
    worst = Math.max(worst, lightnessOf(data[at] as number) - lightnessOf(Math.max(0, (expected[at] as number) + offset)));
  }
  const clear = mask.map((value, at) => (value === 1 && excess(at) - offset > SURE_TIMES * limit ? 1 : 0));
  const sure = reshaped(clear, width, height, [-RIM_PX]).reduce((sum, value) => sum + value, 0);
  return {
    percent: (100 * count) / places.length,
    leastPercent: (100 * sure) / data.length,
    byOneShare: count > 0 ? byOne / count : 0,
    mask,
    worstLightness: worst,
    added: { width, height, data: added },
  };
}
