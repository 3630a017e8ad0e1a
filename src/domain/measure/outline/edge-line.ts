import { type Line, lineThrough } from "../lines.ts";
import { fitArc } from "../numbers/fit-arc.ts";
import { median } from "../numbers/robust.ts";
import type { Point } from "../picture.ts";

/** Writes three channels at a place between pixels, and answers whether it lies in the frame; beyond, the nearest place in it counts. */
export type ColourSampler = (x: number, y: number, into: Float64Array) => boolean;

/**
 * Writes three channels at each of 2 `reach` + 1 places in line, (x, y) in their middle; false, and nothing written, where
 * that lies outside the frame.
 */
export type ProfileSampler = (x: number, y: number, stepX: number, stepY: number, reach: number, into: Float64Array) => boolean;

export type EdgeOptions = {
  /** how far to look to both sides, px */
  readonly reachPx: number;
  /** profiles along the side */
  readonly profiles: number;
  /** the rise is looked for over this distance, px: wide for a first look, 1 for the last */
  readonly lagPx: number;
  /** colour difference between both ends of a profile below which it shows no edge */
  readonly leastStep: number;
  /** how far from the line a profile may lie and still agree with it, px */
  readonly tolerancePx: number;
  /** how far inwards the side is known to bow in its middle, px; profiles are laid along that arc. Default 0 */
  readonly bowPx?: number;
};

/** An edge seen in many profiles: straight, or bowed a little by the lens or the curl of the sheet. */
export type EdgeFit = {
  /** through both ends of the side, and so through its corners */
  readonly line: Line;
  /** how far inwards the side bows in its middle, px; 0 where it is straight as far as can be told */
  readonly bowPx: number;
  /** the same as it was read, sure or not */
  readonly sagPx: number;
  readonly sagSpreadPx: number;
  /** profiles that agree with the line, of those inside the frame */
  readonly share: number;
  /** standard deviation of the agreeing profiles about the line, px */
  readonly residualPx: number;
  /**
   * one-sigma uncertainty of the line at both ends of the side, px: of the fit, and how far the centroid of the rise lies
   * from where it is half done. A shadow, a clipped border or sharpening make them differ, and move both.
   */
  readonly fromSpreadPx: number;
  readonly toSpreadPx: number;
  /** median colour difference across the edge; 0 where it was not read */
  readonly step: number;
};

/** Part of a side left out at each end: rounded corners, and the blur of the neighbouring side. */
const MARGIN_SHARE = 0.06;
const FEWEST_PROFILES = 12;

/**
 * Looks for an edge near the side `from` → `to` (clockwise, inside to the right). Each profile across it is projected
 * on its own colour axis from outside to inside; the place is the centroid of the strongest rise; a straight line is
 * fitted or a shallow arc is
 * fitted robustly through the places. Null when too few profiles show an edge.
 */
export function findEdge(sample: ProfileSampler, from: Point, to: Point, options: EdgeOptions): EdgeFit | null {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (!(length > 4)) return null;
  const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const inward = { x: -along.y, y: along.x };
  const reach = Math.ceil(options.reachPx);
  const lag = Math.max(1, Math.round(options.lagPx));
  const colours = new Float64Array((2 * reach + 1) * 3);
  const height = new Float64Array(2 * reach + 1);
  const { bowPx = 0 } = options;
  const distances: number[] = [];
  const places: number[] = [];
  const steps: number[] = [];
  const halves: number[] = [];
  const tops: number[] = [];
  const inners: number[] = [];
  const outers: number[] = [];
  let inFrame = 0;
  for (let index = 0; index < options.profiles; index++) {
    const s = length * (MARGIN_SHARE + (1 - 2 * MARGIN_SHARE) * ((index + 0.5) / options.profiles));
    const bowed = (bowPx * 4 * s * (length - s)) / (length * length);
    const x = from.x + along.x * s + inward.x * bowed;
    const y = from.y + along.y * s + inward.y * bowed;
    // samples 1 px apart from `reach` px outside to `reach` px inside
    if (!sample(x, y, inward.x, inward.y, reach, colours)) continue;
    inFrame++;
    const rise = strongestRise(colours, height, lag, options.leastStep);
    if (!rise) continue;
    distances.push(s);
    places.push(rise.place + bowed);
    steps.push(rise.step);
    halves.push(rise.half - rise.place);
    tops.push(rise.top);
    inners.push(rise.inner);
    outers.push(rise.outer);
  }
  if (inFrame < FEWEST_PROFILES) return null;
  const fit = fitArc(distances, places, options.tolerancePx, length);
  if (!fit) return null;
  const lopsidedPx = Math.hypot(
    median(halves),
    median(tops) > CLIPPED ? CLIPPED_PX : 0,
    SHARPENED_PX * Math.max(0, median(inners), median(outers)),
  );
  const at = (s: number): Point => {
    const t = fit.offset + fit.slope * s;
    return { x: from.x + along.x * s + inward.x * t, y: from.y + along.y * s + inward.y * t };
  };
  return {
    line: lineThrough(at(0), at(length)),
    bowPx: fit.bow,
    sagPx: fit.sag,
    sagSpreadPx: fit.sagSpread,
    share: fit.agreeing / inFrame,
    residualPx: fit.residual,
    fromSpreadPx: Math.hypot(fit.spreadAt(0), lopsidedPx),
    toSpreadPx: Math.hypot(fit.spreadAt(length), lopsidedPx),
    step: median(steps),
  };
}

/** In linear light: paper or ground is lost in white, which moves the edge by a part of its blur; from drawn captures. */
const CLIPPED = 0.985;
const CLIPPED_PX = 0.3;

/**
 * Sharpening works on codes, not on light, so that it moves a side: by so many px for an overshoot as high as the
 * step; on drawn captures by 1 to 3.
 */
const SHARPENED_PX = 2.5;

/** `top` is the brightest channel of either end of the profile; `inner` and `outer` how far it overshoots at each side of the rise, as a share of the step. */
type Rise = {
  readonly place: number;
  readonly half: number;
  readonly step: number;
  readonly top: number;
  readonly inner: number;
  readonly outer: number;
};

/** Where the profile rises most, px from its middle, and how much its two ends differ; null when they do not. `height` is written over. */
function strongestRise(colours: Float64Array, height: Float64Array, lag: number, leastStep: number): Rise | null {
  const count = height.length;
  const reach = (count - 1) / 2;
  const red = endsApart(colours, count, 0);
  const green = endsApart(colours, count, 1);
  const blue = endsApart(colours, count, 2);
  const step = Math.sqrt(red * red + green * green + blue * blue);
  if (!(step >= leastStep)) return null;
  for (let k = 0; k < count; k++)
    height[k] = ((colours[k * 3] as number) * red + (colours[k * 3 + 1] as number) * green + (colours[k * 3 + 2] as number) * blue) / step;
  let peak = 0;
  let highest = Number.NEGATIVE_INFINITY;
  for (let k = 0; k + lag < count; k++) {
    const rise = (height[k + lag] as number) - (height[k] as number);
    if (rise > highest) {
      highest = rise;
      peak = k;
    }
  }
  let centre = peak + lag / 2;
  for (let pass = 0; pass < 2; pass++) {
    const next = centroid(height, centre, lag + 3);
    if (next === null) return null;
    centre = next;
  }
  return {
    place: centre - reach,
    half: halfWay(height, centre) - reach,
    inner: overshoot(height, centre, 1) / step,
    outer: overshoot(height, centre, -1) / step,
    step,
    top: Math.max(endMean(colours, 0), endMean(colours, count - END)),
  };
}

/** By how much a channel's mean at the inner end exceeds that at the outer end. */
function endsApart(colours: Float64Array, count: number, channel: number): number {
  const third = Math.max(1, Math.floor(count * 0.36));
  let difference = 0;
  for (let k = 0; k < third; k++) difference += (colours[(count - 1 - k) * 3 + channel] as number) - (colours[k * 3 + channel] as number);
  return difference / third;
}

const END = 3;

function endMean(colours: Float64Array, first: number): number {
  let brightest = 0;
  for (let channel = 0; channel < 3; channel++) {
    let sum = 0;
    for (let k = first; k < first + END; k++) sum += colours[k * 3 + channel] as number;
    brightest = Math.max(brightest, sum / END);
  }
  return brightest;
}

/** Plateaus begin so far from the middle of a rise, px, and are so long. */
const PLATEAU_FROM = 4;
const PLATEAU_LENGTH = 3;

/** Where near `centre` the rise is half done, between the plateaus beside it; `centre` where that is not told. */
function halfWay(height: Float64Array, centre: number): number {
  const count = height.length;
  const at = Math.round(centre);
  const last = Math.min(count - 1, at + PLATEAU_FROM + PLATEAU_LENGTH - 1);
  const first = Math.max(0, at - PLATEAU_FROM - PLATEAU_LENGTH + 1);
  const inner = mean(height, Math.max(first, last - PLATEAU_LENGTH + 1), last);
  const outer = mean(height, first, Math.min(last, first + PLATEAU_LENGTH - 1));
  const half = (inner + outer) / 2;
  let found = centre;
  let nearest = Number.POSITIVE_INFINITY;
  for (let k = first; k < last; k++) {
    const before = (height[k] as number) - half;
    const after = (height[k + 1] as number) - half;
    if (!(before <= 0 && after > 0)) continue;
    const place = k - before / (after - before);
    if (Math.abs(place - centre) >= nearest) continue;
    nearest = Math.abs(place - centre);
    found = place;
  }
  return found;
}

/** How far the px beside a rise stand out beyond the plateau behind them, inwards (1) or outwards (-1); sharpening raises the second px most. */
function overshoot(height: Float64Array, centre: number, way: 1 | -1): number {
  const at = Math.round(centre);
  const last = height.length - 1;
  const level = (k: number) => height[Math.min(last, Math.max(0, at + way * k))] as number;
  return way * (level(2) - (level(5) + level(6) + level(7)) / 3);
}

function mean(height: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let k = from; k <= to; k++) sum += height[k] as number;
  return sum / Math.max(1, to - from + 1);
}

/** Centroid of the rises within `window` px of `centre`; small ones are noise and left out. */
function centroid(height: Float64Array, centre: number, window: number): number | null {
  const first = Math.max(0, Math.ceil(centre - 0.5 - window)) | 0;
  const last = Math.min(height.length - 2, Math.floor(centre - 0.5 + window)) | 0;
  let steepest = 0;
  for (let k = first; k <= last; k++) steepest = Math.max(steepest, (height[k + 1] as number) - (height[k] as number));
  let sum = 0;
  let moment = 0;
  for (let k = first; k <= last; k++) {
    const rise = (height[k + 1] as number) - (height[k] as number);
    if (rise < 0.15 * steepest) continue;
    sum += rise;
    moment += rise * (k + 0.5);
  }
  return sum > 0 ? moment / sum : null;
}
