import { lineThrough } from "../lines.ts";
import { fitLine } from "../numbers/fit-line.ts";
import { median, robustSpread } from "../numbers/robust.ts";
import type { Point } from "../picture.ts";
import type { ColourSampler, EdgeFit } from "./edge-line.ts";

const BLOCKS = 16;
const COLUMNS = 40;
/** How far to look to both sides, px and as a share of the side: a shadow beside a sheet that lies hollow is as broad. */
const LEAST_REACH_PX = 12;
const REACH_SHARE = 0.04;
const MOST_REACH_PX = 56;
/** So much of the border is plain for certain. */
const BORDER_SHARE = 0.7;
const LEAST_AGREEING = 0.5;
const AGREEING_SHARE = 0.06;
/** A change is steep from this share of the steepest: a shadow rises more, if less abruptly, than paper falls to it. */
const STEEP = 0.5;
const SUMMIT_PX = 4;
/** Light is kept sharper than colour by JPEG: where it shows the side so many times above its usual change, it alone places it. */
const CLEAR_IN_LIGHT = 6;
/** A block shows the side when its steepest change is so many times its usual one. */
const LEAST_CONTRAST = 3;
/** A scale below this is that of quantised, not of measured values. */
const LEAST_SCALE = 2e-5;

/**
 * Places a faint side anew, block by block along it: in each the profile across is averaged, and the innermost steep
 * change taken, since beyond the sheet's edge its shadow begins. Null when the blocks do not agree on a line.
 * `from` → `to` runs clockwise, the sheet to the right;
 * the picture, which must stay out of reach, begins `borderPx` inside.
 */
export function refineFaintLine(
  sample: ColourSampler,
  from: Point,
  to: Point,
  borderPx = Number.POSITIVE_INFINITY,
  looks = 3,
): EdgeFit | null {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const wanted = Math.min(MOST_REACH_PX, Math.max(LEAST_REACH_PX, REACH_SHARE * length));
  const reachPx = Math.round(Math.min(wanted, Math.max(LEAST_REACH_PX / 2, BORDER_SHARE * borderPx)));
  const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const outward = { x: along.y, y: -along.x };
  const profiles = Array.from({ length: BLOCKS }, (_, block) =>
    meanProfile(sample, from, along, outward, (block / BLOCKS) * length, length / BLOCKS, reachPx),
  );
  const seen = onChanceScale(profiles.filter((profile) => profile !== null));
  const distances: number[] = [];
  const places: number[] = [];
  profiles.forEach((profile, block) => {
    const place = profile && innermostChange(profile, seen);
    if (place === null) return;
    distances.push(((block + 0.5) / BLOCKS) * length);
    places.push(place - reachPx);
  });
  const fit = fitLine(distances, places, Math.max(1.5, AGREEING_SHARE * reachPx));
  if (!fit || fit.agreeing < LEAST_AGREEING * BLOCKS) return null;
  const at = (s: number): Point => {
    const t = fit.offset + fit.slope * s;
    return { x: from.x + along.x * s + outward.x * t, y: from.y + along.y * s + outward.y * t };
  };
  const movedPx = Math.max(Math.abs(fit.offset), Math.abs(fit.offset + fit.slope * length));
  // So near the end of what was looked at the change is cut short: it is looked at again, from where it is.
  if (movedPx > reachPx / 4 && looks > 1) return refineFaintLine(sample, at(0), at(length), Math.max(0, borderPx - movedPx), looks - 1);
  return {
    line: lineThrough(at(0), at(length)),
    bowPx: 0,
    sagPx: 0,
    sagSpreadPx: Number.POSITIVE_INFINITY,
    share: fit.agreeing / BLOCKS,
    residualPx: fit.residual,
    fromSpreadPx: fit.spreadAt(0),
    toSpreadPx: fit.spreadAt(length),
    step: 0,
  };
}

/** Per sample the mean of R, G, B, then two differences of them, in which neutral noise does not show. */
type Profile = readonly Float64Array[];

/** Per channel, what changes by chance from one sample to the next. */
type ChanceScale = readonly number[];

function onChanceScale(profiles: readonly Profile[]): ChanceScale {
  return [0, 1, 2].map((channel) => {
    const changes = profiles.flatMap((profile) =>
      profile.slice(1).map((sample, k) => (sample[channel] as number) - (profile[k]?.[channel] as number)),
    );
    return Math.max(LEAST_SCALE, robustSpread(changes, 0));
  });
}

/** Samples in linear light, 1 px apart from inside to outside, averaged along the block; null where the frame ends. */
function meanProfile(
  sample: ColourSampler,
  from: Point,
  along: Point,
  outward: Point,
  start: number,
  run: number,
  reachPx: number,
): Profile | null {
  const profile = Array.from({ length: 2 * reachPx + 1 }, () => new Float64Array(3));
  const pixel = new Float64Array(3);
  for (let column = 0; column < COLUMNS; column++) {
    const s = start + ((column + 0.5) / COLUMNS) * run;
    for (let k = 0; k < profile.length; k++) {
      const t = k - reachPx;
      if (!sample(from.x + along.x * s + outward.x * t, from.y + along.y * s + outward.y * t, pixel)) return null;
      const mean = profile[k] as Float64Array;
      const [r, g, b] = [pixel[0] as number, pixel[1] as number, pixel[2] as number] as const;
      mean[0] = (mean[0] as number) + (r + g + b) / 3 / COLUMNS;
      mean[1] = (mean[1] as number) + (r - b) / COLUMNS;
      mean[2] = (mean[2] as number) + (g - (r + b) / 2) / COLUMNS;
    }
  }
  return smoothed(profile);
}

/** By 1 : 2 : 1, which takes more from the noise than from an edge. */
function smoothed(profile: Profile): Profile {
  return profile.map((sample, k) => {
    const before = profile[k - 1] ?? sample;
    const after = profile[k + 1] ?? sample;
    return sample.map((value, channel) => ((before[channel] as number) + 2 * value + (after[channel] as number)) / 4);
  });
}

function innermostChange(profile: Profile, scale: ChanceScale): number | null {
  const changes = profile
    .slice(1)
    .map((sample, k) => scale.map((spread, channel) => ((sample[channel] as number) - (profile[k]?.[channel] as number)) / spread));
  const inLight = changes.map(([light = 0]) => Math.abs(light));
  const isInLight = Math.max(...inLight) > CLEAR_IN_LIGHT * Math.max(1, median(inLight));
  const sizes = isInLight ? inLight : changes.map((change) => Math.hypot(...change));
  const steepest = Math.max(...sizes);
  if (!(steepest > LEAST_CONTRAST * median(sizes))) return null;
  // Of a change that is blurred, as JPEG blurs colour, its summit counts and no ripple on its slope.
  const isSummit = (k: number) => sizes.slice(Math.max(0, k - SUMMIT_PX), k + SUMMIT_PX + 1).every((size) => size <= (sizes[k] as number));
  const first = sizes.findIndex((size, k) => size >= STEEP * steepest && isSummit(k));
  const axis = changes[first];
  if (!axis) return null;
  let sum = 0;
  let moment = 0;
  for (let k = Math.max(0, first - 3); k <= Math.min(changes.length - 1, first + 3); k++) {
    const rise = Math.max(
      0,
      axis.reduce((total, value, channel) => total + value * (changes[k]?.[channel] as number), 0),
    );
    sum += rise;
    moment += rise * (k + 0.5);
  }
  return sum > 0 ? moment / sum : null;
}
