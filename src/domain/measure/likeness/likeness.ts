import { type Alignment, alignPlanes, type Effort, THOROUGHLY } from "../laying/align-planes.ts";
import { correlation } from "../laying/detail-plane.ts";
import { median } from "../numbers/robust.ts";
import { blurred, type GridPlane, onceForEachSize, resized, turnedBy } from "../planes/grid-plane.ts";
import { type Fingerprint, likenessOf, turnedFingerprint } from "./fingerprint.ts";

/** A picture that may be the one, by its place in the list, and the quarter turns, clockwise, that bring it to lie as the one asked for. */
export type Likely = { readonly index: number; readonly quarters: number; readonly likeness: number };

/** Of one print, or whatever else the pictures are of, at most so many are among the likeliest, so that they do not crowd out the rest. */
const MOST_OF_ONE = 2;

/**
 * The pictures that look most like one from afar, in any of four turns, likeliest first. A mirrored picture is another.
 * @param isOf what each picture is of; those without a name are each of its own
 */
export function likeliest(
  asked: Fingerprint,
  among: readonly Fingerprint[],
  count: number,
  isOf: (index: number) => string | number | null = () => null,
): Likely[] {
  // turning the one asked for back is the same as turning each of the others, and far cheaper
  const turns = [0, 1, 2, 3].map((quarters) => ({ quarters, print: turnedFingerprint(asked, 4 - quarters) }));
  const all = among.map((print, index) =>
    turns.reduce<Likely>(
      (most, { quarters, print: turned }) => {
        const likeness = likenessOf(turned, print);
        return likeness > most.likeness ? { index, quarters, likeness } : most;
      },
      { index, quarters: 0, likeness: Number.NEGATIVE_INFINITY },
    ),
  );
  const best: Likely[] = [];
  const taken = new Map<string | number, number>();
  for (const likely of all.sort((a, b) => b.likeness - a.likeness)) {
    if (best.length === count) break;
    const of = isOf(likely.index);
    const before = of === null ? 0 : (taken.get(of) ?? 0);
    if (before === MOST_OF_ONE) continue;
    if (of !== null) taken.set(of, before + 1);
    best.push(likely);
  }
  return best;
}

/** How many of the likeliest are glanced at. */
export const SHORTLIST = 24;

export type Sameness = {
  /** correlation of detail once laid on each other, −1 to 1 */
  readonly detail: number;
  /** share of the places with detail that show the same in both */
  readonly agreeing: number;
  /** share of the places with contrast in both that show something else in each, as where somebody moved between two frames */
  readonly contradicting: number;
};

/** A glance, by which most that merely look alike from afar are told to be others, at a tenth of the time of a close look. */
const GLANCE_PX = 64;
const GLANCE: Effort = {
  levels: [
    { scale: 2, terms: 3, passes: 8 },
    { scale: 1, terms: 3, passes: 6 },
  ],
  settledPx: 0.05,
};
const CLOSE_PX = 240;
/** Whether detail agrees is told no better by tenths of a pixel. */
const CLOSE: Effort = { ...THOROUGHLY, settledPx: 0.1 };
/** Proportions that differ by more are not of one picture, even where one was cut a little (natural logarithm). */
const MOST_ASPECT_DIFFERENCE = 0.15;

/**
 * Correlation of the detail of two straightened pictures, the other turned by quarters and laid on the one roughly and small, −1 to 1.
 * Null where they cannot be laid on each other.
 */
export function glance(asked: GridPlane, other: GridPlane, quarters: number): number | null {
  return laid(asked, other, quarters, GLANCE_PX, GLANCE)?.alignment.correlation ?? null;
}

/**
 * Whether two straightened pictures show the same: lays one on the other and looks place by place whether their detail
 * agrees. Two letters on one printed form agree in the form and not in the writing. Null where they cannot be laid on each other.
 */
export function sameness(asked: GridPlane, other: GridPlane, quarters: number): Sameness | null {
  const found = laid(asked, other, quarters, CLOSE_PX, CLOSE);
  if (!found) return null;
  const { one, another, alignment } = found;
  const places = placesOf(alignment, contrastOf(one), contrastOf(alignment.warped(another)));
  return { detail: alignment.correlation, agreeing: agreeing(places), contradicting: contradicting(places) };
}

type Laid = { readonly one: GridPlane; readonly another: GridPlane; readonly alignment: Alignment };

/** Both at one small size, and how the other, turned, lies on the one. */
function laid(asked: GridPlane, other: GridPlane, quarters: number, longSidePx: number, effort: Effort): Laid | null {
  const isTurned = quarters % 2 === 1;
  const [otherWidth, otherHeight] = isTurned ? [other.height, other.width] : [other.width, other.height];
  if (Math.abs(Math.log((asked.width * otherHeight) / (asked.height * otherWidth))) > MOST_ASPECT_DIFFERENCE) return null;
  const scale = longSidePx / Math.max(asked.width, asked.height);
  const width = Math.max(2, Math.round(asked.width * scale));
  const height = Math.max(2, Math.round(asked.height * scale));
  const small = isTurned ? resized(other, height, width) : resized(other, width, height);
  const [one, another] = [askedAt(asked, width, height), turnedBy(small, quarters)];
  const alignment = alignPlanes(one, another, effort);
  return alignment && { one, another, alignment };
}

/** The one asked for is held against many. */
const askedAt = onceForEachSize(resized);

const TILES = 10;
/** A place counts when its detail is at least this share of the middle place's. */
const ENOUGH_DETAIL = 0.5;
const AGREES = 0.4;
/** Contrast (standard deviation of ln Y about its local mean) that is no noise, and the correlation below which it shows something else. Own. */
const ENOUGH_CONTRAST = 0.05;
const SHOWS_ELSE = 0.25;
const MEAN_SIGMA_PX = 4;

type Place = {
  /** mean square of the detail plane, of the poorer of both */
  readonly energy: number;
  readonly contrast: number;
  readonly likeness: number;
};

function placesOf({ detail }: Alignment, contrast: GridPlane, otherContrast: GridPlane): Place[] {
  return Array.from({ length: TILES * TILES }, (_, tile) => {
    const [first, second] = [cutOut(detail.fixed, tile), cutOut(detail.moved, tile)];
    return {
      energy: Math.min(meanSquare(first), meanSquare(second)),
      contrast: Math.sqrt(Math.min(meanSquare(cutOut(contrast, tile)), meanSquare(cutOut(otherContrast, tile)))),
      likeness: correlation(first, second),
    };
  });
}

function agreeing(places: readonly Place[]): number {
  const least = ENOUGH_DETAIL * median(places.map(({ energy }) => energy));
  const counting = places.filter(({ energy }) => energy > 0 && energy >= least);
  return counting.filter(({ likeness }) => likeness >= AGREES).length / Math.max(1, counting.length);
}

function contradicting(places: readonly Place[]): number {
  const counting = places.filter(({ contrast }) => contrast >= ENOUGH_CONTRAST);
  return counting.filter(({ likeness }) => likeness < SHOWS_ELSE).length / Math.max(1, counting.length);
}

/** ln Y less its local mean. */
function contrastOf({ width, height, data }: GridPlane): GridPlane {
  const logs = { width, height, data: data.map((value) => Math.log(Math.max(1e-3, value))) };
  const mean = blurred(logs, MEAN_SIGMA_PX).data;
  return { width, height, data: logs.data.map((value, at) => value - (mean[at] as number)) };
}

function cutOut({ width, height, data }: GridPlane, tile: number): Float32Array {
  const [left, right] = [Math.floor(((tile % TILES) * width) / TILES), Math.floor((((tile % TILES) + 1) * width) / TILES)];
  const row = Math.floor(tile / TILES);
  const [top, bottom] = [Math.floor((row * height) / TILES), Math.floor(((row + 1) * height) / TILES)];
  const cut = new Float32Array((right - left) * (bottom - top));
  for (let y = top; y < bottom; y++) cut.set(data.subarray(y * width + left, y * width + right), (y - top) * (right - left));
  return cut.map((value) => (Number.isNaN(value) ? 0 : value));
}

const meanSquare = (values: Float32Array): number => values.reduce((sum, value) => sum + value * value, 0) / Math.max(1, values.length);

/**
 * What a sameness says; the limits are own experiments (see the tests). Where places with contrast show something else, they may be
 * two frames of one scene, and a person must look.
 */
export function verdictOn({ detail, agreeing, contradicting }: Sameness): "same" | "perhaps" | "other" {
  if (detail >= SAME_DETAIL && agreeing >= SAME_PLACES && contradicting <= MOST_CONTRADICTING) return "same";
  return detail >= PERHAPS_DETAIL && agreeing >= PERHAPS_PLACES ? "perhaps" : "other";
}

const SAME_DETAIL = 0.5;
const SAME_PLACES = 0.75;
/** Captures of one drawn print stayed below 0.08 but for a shaken one; of frames in which a fifth had changed none below 0.11. */
const MOST_CONTRADICTING = 0.1;
const PERHAPS_DETAIL = 0.4;
const PERHAPS_PLACES = 0.5;
