import type { ColourSampler } from "./edge-line.ts";
import { fitLine } from "./fit-line.ts";
import { type Line, lineThrough } from "./lines.ts";
import type { Point } from "./picture.ts";
import { median } from "./robust.ts";

const BLOCKS = 24;
const COLUMNS = 40;
const REACH_PX = 12;
const LEAST_AGREEING = 0.6;
/** A block shows the side when its steepest change is so many times its usual one. */
const LEAST_CONTRAST = 3.5;

/**
 * Places a faint side anew, block by block along it: in each the profile across is averaged, and the innermost steep
 * change taken, since beyond the sheet's edge its shadow begins. Null when the blocks do not agree on a line.
 * `from` → `to` runs clockwise, the sheet to the right.
 */
export function refineFaintLine(sample: ColourSampler, from: Point, to: Point): Line | null {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const outward = { x: along.y, y: -along.x };
  const distances: number[] = [];
  const places: number[] = [];
  for (let block = 0; block < BLOCKS; block++) {
    const profile = meanProfile(sample, from, along, outward, (block / BLOCKS) * length, length / BLOCKS);
    const place = profile && innermostChange(profile);
    if (place === null) continue;
    distances.push(((block + 0.5) / BLOCKS) * length);
    places.push(place - REACH_PX);
  }
  const fit = fitLine(distances, places, 1.5);
  if (!fit || fit.agreeing < LEAST_AGREEING * BLOCKS) return null;
  const at = (s: number): Point => {
    const t = fit.offset + fit.slope * s;
    return { x: from.x + along.x * s + outward.x * t, y: from.y + along.y * s + outward.y * t };
  };
  return lineThrough(at(0), at(length));
}

type Profile = readonly Float64Array[];

/** Mean linear R, G, B, 1 px apart from inside to outside; null where the frame ends. */
function meanProfile(sample: ColourSampler, from: Point, along: Point, outward: Point, start: number, run: number): Profile | null {
  const profile = Array.from({ length: 2 * REACH_PX + 1 }, () => new Float64Array(3));
  const pixel = new Float64Array(3);
  for (let column = 0; column < COLUMNS; column++) {
    const s = start + ((column + 0.5) / COLUMNS) * run;
    for (let k = 0; k < profile.length; k++) {
      const t = k - REACH_PX;
      if (!sample(from.x + along.x * s + outward.x * t, from.y + along.y * s + outward.y * t, pixel)) return null;
      const mean = profile[k] as Float64Array;
      for (let channel = 0; channel < 3; channel++) mean[channel] = (mean[channel] as number) + (pixel[channel] as number) / COLUMNS;
    }
  }
  return profile;
}

function innermostChange(profile: Profile): number | null {
  const difference = (later: number, earlier: number) =>
    [0, 1, 2].map((k) => (profile[later]?.[k] as number) - (profile[earlier]?.[k] as number));
  const changes = profile.map((_, k) => (k === 0 || k === profile.length - 1 ? 0 : Math.hypot(...difference(k + 1, k - 1))));
  const steepest = Math.max(...changes);
  if (!(steepest > LEAST_CONTRAST * median(changes))) return null;
  const first = changes.findIndex(
    (change, k) => change >= 0.5 * steepest && change >= (changes[k + 1] ?? 0) && change >= (changes[k - 1] ?? 0),
  );
  if (first < 0) return null;
  const axis = difference(first + 1, first - 1);
  let sum = 0;
  let moment = 0;
  for (let k = Math.max(0, first - 3); k <= Math.min(profile.length - 2, first + 2); k++) {
    const rise = Math.max(
      0,
      difference(k + 1, k).reduce((total, value, channel) => total + value * (axis[channel] as number), 0),
    );
    sum += rise;
    moment += rise * (k + 0.5);
  }
  return sum > 0 ? moment / sum : null;
}
