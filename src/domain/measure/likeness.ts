import { alignPlanes } from "./align-planes.ts";
import { correlation, detailPlane } from "./detail-plane.ts";
import { type Fingerprint, likenessOf, turnedFingerprint } from "./fingerprint.ts";
import { type GridPlane, resized, turnedBy } from "./grid-plane.ts";
import { median } from "./robust.ts";

/** A picture that may be the one, by its place in the list, and the quarter turns, clockwise, that bring it to lie as the one asked for. */
export type Likely = { readonly index: number; readonly quarters: number; readonly likeness: number };

/** The pictures that look most like one from afar, in any of four turns, likeliest first. A mirrored picture is another. */
export function likeliest(asked: Fingerprint, among: readonly Fingerprint[], count: number): Likely[] {
  // turning the one asked for back is the same as turning each of the others, and far cheaper
  const turns = [0, 1, 2, 3].map((quarters) => ({ quarters, print: turnedFingerprint(asked, 4 - quarters) }));
  const best = among.map((print, index) =>
    turns.reduce<Likely>(
      (most, { quarters, print: turned }) => {
        const likeness = likenessOf(turned, print);
        return likeness > most.likeness ? { index, quarters, likeness } : most;
      },
      { index, quarters: 0, likeness: Number.NEGATIVE_INFINITY },
    ),
  );
  return best.sort((a, b) => b.likeness - a.likeness).slice(0, count);
}

/** How many of the likeliest are laid on the picture and looked at closely. */
export const SHORTLIST = 8;

export type Sameness = {
  /** correlation of detail once laid on each other, −1 to 1 */
  readonly detail: number;
  /** share of the places with detail that show the same in both */
  readonly agreeing: number;
};

const COARSE_PX = 96;
const FINE_PX = 240;
/** Proportions that differ by more are not of one picture, even where one was cut a little (natural logarithm). */
const MOST_ASPECT_DIFFERENCE = 0.15;
/** Pictures whose detail agrees less than this from afar are not looked at closely. */
const WORTH_A_LOOK = 0.3;

/**
 * Whether two straightened pictures show the same: lays one on the other, first small, then larger, and looks place by
 * place whether their detail agrees. Two letters on one printed form agree in the form and not in the writing. Null where
 * they cannot be laid on each other.
 */
export function sameness(asked: GridPlane, other: GridPlane, quarters: number): Sameness | null {
  const turned = turnedBy(other, quarters);
  if (Math.abs(Math.log((asked.width * turned.height) / (asked.height * turned.width))) > MOST_ASPECT_DIFFERENCE) return null;
  const coarse = laid(asked, turned, COARSE_PX);
  return coarse && coarse.detail >= WORTH_A_LOOK ? laid(asked, turned, FINE_PX) : coarse;
}

function laid(asked: GridPlane, turned: GridPlane, longSidePx: number): Sameness | null {
  const scale = longSidePx / Math.max(asked.width, asked.height);
  const width = Math.max(2, Math.round(asked.width * scale));
  const height = Math.max(2, Math.round(asked.height * scale));
  const [one, other] = [resized(asked, width, height), resized(turned, width, height)];
  const alignment = alignPlanes(one, other);
  if (!alignment) return null;
  return { detail: alignment.correlation, agreeing: agreeing(detailPlane(one), detailPlane(alignment.warped(other))) };
}

const TILES = 10;
/** A place counts when its detail is at least this share of the middle place's. */
const ENOUGH_DETAIL = 0.5;
const AGREES = 0.4;

function agreeing(one: GridPlane, other: GridPlane): number {
  const places = Array.from({ length: TILES * TILES }, (_, tile) => {
    const [first, second] = [cutOut(one, tile), cutOut(other, tile)];
    const energy = Math.min(meanSquare(first), meanSquare(second));
    return { energy, likeness: correlation(first, second) };
  });
  const least = ENOUGH_DETAIL * median(places.map(({ energy }) => energy));
  const counting = places.filter(({ energy }) => energy > 0 && energy >= least);
  return counting.filter(({ likeness }) => likeness >= AGREES).length / Math.max(1, counting.length);
}

function cutOut({ width, height, data }: GridPlane, tile: number): Float32Array {
  const [left, right] = [Math.floor(((tile % TILES) * width) / TILES), Math.floor((((tile % TILES) + 1) * width) / TILES)];
  const row = Math.floor(tile / TILES);
  const [top, bottom] = [Math.floor((row * height) / TILES), Math.floor(((row + 1) * height) / TILES)];
  const cut = new Float32Array((right - left) * (bottom - top));
  for (let y = top; y < bottom; y++) cut.set(data.subarray(y * width + left, y * width + right), (y - top) * (right - left));
  return cut;
}

const meanSquare = (values: Float32Array): number => values.reduce((sum, value) => sum + value * value, 0) / Math.max(1, values.length);

/** What a sameness says; the limits are own experiments (see the tests). */
export function verdictOn({ detail, agreeing }: Sameness): "same" | "perhaps" | "other" {
  if (detail >= SAME_DETAIL && agreeing >= SAME_PLACES) return "same";
  return detail >= PERHAPS_DETAIL && agreeing >= PERHAPS_PLACES ? "perhaps" : "other";
}

const SAME_DETAIL = 0.5;
const SAME_PLACES = 0.75;
const PERHAPS_DETAIL = 0.4;
const PERHAPS_PLACES = 0.5;
