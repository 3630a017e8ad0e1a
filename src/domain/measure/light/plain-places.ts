import { quantile } from "../numbers/robust.ts";
import type { GridPlane } from "../planes/grid-plane.ts";
import { fitVeil, POWERS, type Samples, samplesOf, scaleOf, type VeilFit } from "./veil-fit.ts";

/** More would tell no better. */
const MOST_PLACES = 2500;
/** Of the places of like tone, those least bright in the capture that is supposed to shine start the fit. */
const START_SHARE = 0.25;
/** What lies farther off than this share of the light counts for nothing, ever more strictly. */
const REACHES = [0.3, 0.2, 0.13, 0.09, 0.06, 0.06, 0.06, 0.06] as const;
/** While the reach still shrinks, every so-and-so-many-th power is tried. */
const FEWER_POWERS = 4;
const DARKEST = 1e-4;
/** Two accounts that have this share of their plain places in common are one. */
const ONE_ACCOUNT = 0.8;
/** What an account must show to be credible: plain places, hardly anything darker than they let expect, and no stranger tone curve than devices have. */
const LEAST_PLAIN = 0.3;
const MOST_DARKER = 0.15;
const MOST_POWER = 1.3;
/** By how much more strained the other account must be where both are credible. */
const TIMES_LESS = 1.5;

/**
 * Places that shine in neither of two planes of linear luminance laid on each other, or null where that cannot be told.
 *
 * A place that is brighter in one capture shines there only if the rest is plain; were the rest to shine in the other capture, the same two pictures
 * would come out. Both accounts are tried: that one capture shines and the other does not, Y_one = L · Y_other^g + b wherever it is plain (veil-fit.ts), started from
 * the places where it is least bright and narrowed until what is left fits within 6 %; and the same the other way round. Where both end on the
 * same places, nothing is in doubt. Else light only adds: the true account leaves hardly any place darker than it lets expect and needs the least light,
 * shine and veil together, for the most plain places. The print's own blacks decide between them, so that a print without dark tones does not tell.
 * Source: own.
 */
export function plainOfTwo(one: GridPlane, other: GridPlane, places: Int32Array): Int32Array | null {
  const stride = Math.ceil(places.length / MOST_PLACES);
  const chosen = places.filter((_, index) => index % stride === 0);
  const [ofOne, ofOther] = [samplesOf(one, chosen), samplesOf(other, chosen)];
  const accounts = [accountOf(ofOne, ofOther), accountOf(ofOther, ofOne)].flatMap((account) => account ?? []);
  const [better, worse] = accounts.toSorted((a, b) => strainOf(a) - strainOf(b));
  if (!better || !worse) return null;
  if (overlapOf(better.isPlain, worse.isPlain) >= ONE_ACCOUNT) return places;
  const isBelieved =
    isCredible(better) &&
    !(isCredible(worse) && (worse.lightNeeded <= better.lightNeeded || strainOf(worse) < TIMES_LESS * strainOf(better)));
  return isBelieved ? chosen.filter((_, index) => better.isPlain[index] === 1) : null;
}

/** Light that must be explained for each plain place. */
const strainOf = ({ lightNeeded, share }: Account): number => lightNeeded / share;

const isCredible = ({ share, shine, darker, power }: Account): boolean =>
  share >= LEAST_PLAIN && darker <= MOST_DARKER * shine && Math.abs(Math.log(power)) <= Math.log(MOST_POWER);

/** That `one` shines and the other does not. Light as mean over all places, in shares of the white of `one`. */
type Account = {
  readonly isPlain: Uint8Array;
  readonly power: number;
  readonly share: number;
  readonly shine: number;
  /** by which places stay below what they should be: shine of the other, in this account */
  readonly darker: number;
  /** shine, veil and what stays below, together */
  readonly lightNeeded: number;
};

/** Null where the places do not fix it. `isStart` is 1 at the places that start the fit. */
export function accountOf(one: Samples, other: Samples, isStart: Uint8Array = leastBright(one, other)): Account | null {
  const scale = scaleOf(one);
  let weights = scale.map((value, index) => (isStart[index] === 1 ? value * value : 0));
  let fit: VeilFit | null = null;
  for (const [pass, reach] of REACHES.entries()) {
    const powers = pass === REACHES.length - 1 ? POWERS : POWERS.filter((_, index) => index % FEWER_POWERS === 0);
    fit = closest(powers, one, other, weights, scale);
    if (!fit) return null;
    weights = fit.residuals.map((value, index) =>
      Math.abs(value) < reach ? ((scale[index] as number) * (1 - (value / reach) ** 2)) ** 2 : 0,
    );
  }
  return fit && told(fit, scale, one.white);
}

/** 1 where `one` is least bright among places that are alike in the other. */
const leastBright = (one: Samples, other: Samples): Uint8Array => amongAlike(one, other, START_SHARE, (ratio, limit) => ratio <= limit);

/** 1 where the ratio of `one` to the other stands to the limit as asked, the limit having a share of the ratios of like places below it. */
export function amongAlike(one: Samples, other: Samples, share: number, holds: (ratio: number, limit: number) => boolean): Uint8Array {
  const isStart = new Uint8Array(one.light.length);
  for (const bin of other.bins) {
    const ratios = Float64Array.from(bin, (at) => (one.light[at] as number) / Math.max(DARKEST, other.light[at] as number));
    const limit = quantile(ratios, share);
    bin.forEach((at, index) => {
      if (holds(ratios[index] as number, limit)) isStart[at] = 1;
    });
  }
  return isStart;
}

/** The power that leaves least at the places that have weight. */
export function closest(
  powers: readonly number[],
  one: Samples,
  other: Samples,
  weights: Float64Array,
  scale: Float64Array,
): VeilFit | null {
  let [best, least]: [VeilFit | null, number] = [null, Number.POSITIVE_INFINITY];
  for (const power of powers) {
    const fit = fitVeil(power, one, other, weights, scale);
    if (!fit) continue;
    const misfit = fit.residuals.reduce(
      (sum, value, index) => sum + (weights[index] as number) * (value / (scale[index] as number)) ** 2,
      0,
    );
    if (misfit < least) [best, least] = [fit, misfit];
  }
  return best;
}

function told({ residuals, offset, power }: VeilFit, scale: Float64Array, white: number): Account {
  const reach = REACHES.at(-1) as number;
  const count = residuals.length;
  let [shine, darker, plain] = [0, 0, 0];
  const isPlain = new Uint8Array(count);
  residuals.forEach((value, index) => {
    const light = value / (scale[index] as number) / white / count;
    if (value > reach) shine += light;
    else if (value < -reach) darker -= light;
    else {
      isPlain[index] = 1;
      plain++;
    }
  });
  return { isPlain, power, share: plain / count, shine, darker, lightNeeded: shine + darker + Math.abs(offset) / white };
}

function overlapOf(one: Uint8Array, other: Uint8Array): number {
  let [both, either] = [0, 0];
  one.forEach((value, index) => {
    both += value & (other[index] as number);
    either += value | (other[index] as number);
  });
  return either > 0 ? both / either : 0;
}
