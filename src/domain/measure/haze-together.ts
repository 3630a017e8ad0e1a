import { blurred, type GridPlane } from "./grid-plane.ts";
import type { Laid } from "./lay-finely.ts";
import { solve } from "./least-squares.ts";
import { commonPlaces } from "./matched.ts";
import type { Reading } from "./reading.ts";
import { median, robustSpread } from "./robust.ts";

/**
 * Veil by comparison: hazePercent = 100 · black / white, where black is the light that a capture has more in its shadows than the clearest of
 * the others, and white the file's own white, linear light 1: paper is never brighter, so that the share is never told too high. Between two captures Y_A = L · Y_B^g + b: a veil is the
 * constant b, another tone curve the power g, other light the second-order surface L of place. For each of 21 powers L and b are fitted in one
 * linear step on at most 2500 places, relative errors alike, outliers left out (Tukey's weights); the power that leaves least in the medians of 32 equally
 * filled bins of B holds. Both ways, and the mean taken, since noise and blur raise b either way by the same.
 *
 * At least: the veil that the clearest has too is not in it. Absent for the clearest itself (what it says alone holds), where no capture is clearer
 * by more than the spread, and where the picture has no range of tones. Spread: half the disagreement of both ways, and what
 * the tone curve leaves open, but not below 0.3. Firm where a second capture is as clear as the clearest; else fair, since software
 * may have lowered the clearest one's black.
 * Source: own; black over white as in ISO 9358 (from memory).
 */
export function hazeTogether(laid: readonly Laid[]): Reading[][] {
  const name = HAZE_TOGETHER[0];
  const planes = laid.map(({ coarse }) => blurred(coarse, SMOOTHING_PX));
  const places = commonPlaces(planes, MARGIN_PX);
  if (places.length < FEWEST_PLACES) return laid.map(() => [{ name, absent: "too little of the picture is seen in all captures" }]);
  const stride = Math.ceil(places.length / MOST_PLACES);
  const chosen = places.filter((_, index) => index % stride === 0);
  const more = moreVeils(planes.map((plane) => samplesOf(plane, chosen)));
  const clearest = clearestOf(more);
  return laid.map((_, index) => {
    const found = more[index]?.[clearest];
    if (clearest < 0) return [{ name, absent: TOO_FEW_TONES }];
    if (index === clearest) return [{ name, absent: "no other capture has deeper shadows to compare it with" }];
    if (!found) return [{ name, absent: TOO_FEW_TONES }];
    if (found.percent < Math.max(LEAST_PERCENT, TIMES_SPREAD * found.spread))
      return [
        { name, absent: "its shadows are as deep as those of the other captures: what veil all of them share is not seen by comparison" },
      ];
    const alike = more.some((_row, third) => {
      const against = third === index || third === clearest ? null : more[third]?.[clearest];
      return against && Math.abs(against.percent) < Math.max(LEAST_PERCENT, TIMES_SPREAD * against.spread);
    });
    return [
      {
        name,
        value: found.percent,
        spread: found.spread,
        bound: "lower",
        reliability: alike ? "firm" : "fair",
        note: "More than in the clearest of the other captures; veil that both have is not in it.",
        detail: { of: "picture", comparedWith: laid.length - 1 },
      },
    ];
  });
}

export const HAZE_TOGETHER = ["hazePercent"] as const;

const TOO_FEW_TONES = "the picture has too few dark tones to tell a veil from other light";
const SMOOTHING_PX = 2;
const MARGIN_PX = 4;
const FEWEST_PLACES = 400;
/** More would fix the constant no better. */
const MOST_PLACES = 2500;
const LEAST_PERCENT = 0.4;
const TIMES_SPREAD = 2;
const LEAST_SPREAD_PERCENT = 0.3;
const WHITE_SHARE = 0.01;
/** The darkest tones must be this much darker than the brightest. */
const MOST_DARK_SHARE = 0.3;
const BINS = 32;
/** Tone curves of two devices for one print. */
const POWERS = Array.from({ length: 21 }, (_, k) => 0.6 + 0.05 * k);
/** Added to all tones, so that the darkest do not outweigh all others. */
const FLOOR_SHARE = 0.02;
/** A second-order surface of smooth light. */
const TERMS = 6;
/** Of weights for outliers, found with every so-and-so-many-th power. */
const PASSES = 3;
const FEWER_POWERS = 4;
const TUKEY = 4.685;

type More = { readonly percent: number; readonly spread: number };

/** Of each capture against each other; each pair is looked at once. */
function moreVeils(samples: readonly Samples[]): (More | null)[][] {
  const more: (More | null)[][] = samples.map(() => samples.map(() => null));
  samples.forEach((one, i) => {
    for (const [j, other] of samples.slice(0, i).entries()) {
      const found = moreVeil(one, other);
      (more[i] as (More | null)[])[j] = found;
      (more[j] as (More | null)[])[i] = found && { percent: -found.percent, spread: found.spread };
    }
  });
  return more;
}

/** How much more veil one plane has than another, percent of linear light 1; negative where it has less. */
function moreVeil(one: Samples, other: Samples): More | null {
  if (!one.hasDarkTones && !other.hasDarkTones) return null;
  const [there, back] = [offsetOf(one, other), offsetOf(other, one)];
  if (!there || !back) return null;
  return {
    percent: (there.percent - back.percent) / 2,
    spread: Math.max(LEAST_SPREAD_PERCENT, Math.abs(there.percent + back.percent) / 2, (there.open + back.open) / 2),
  };
}

/** Light of one plane at places that all planes share, and what is asked of it for every pair. */
type Samples = {
  readonly light: Float64Array;
  /** second-order terms of each place, six after six */
  readonly terms: Float64Array;
  /** places from the darkest to the brightest, in equally filled bins */
  readonly bins: readonly Uint32Array[];
  readonly white: number;
  /** whether its dark places are much darker than its bright ones */
  readonly hasDarkTones: boolean;
};

function samplesOf({ width, height, data }: GridPlane, places: Int32Array): Samples {
  const light = Float64Array.from(places, (at) => Math.max(0, data[at] as number));
  const terms = new Float64Array(places.length * TERMS);
  places.forEach((at, index) => {
    const u = (2 * (at % width)) / (width - 1) - 1;
    const v = (2 * Math.floor(at / width)) / (height - 1) - 1;
    terms.set([1, u, v, u * u, u * v, v * v], index * TERMS);
  });
  const order = Uint32Array.from(light.keys()).sort((a, b) => (light[a] as number) - (light[b] as number));
  const at = (share: number) => light[order[Math.floor(share * (order.length - 1))] as number] as number;
  return {
    light,
    terms,
    bins: Array.from({ length: BINS }, (_, bin) =>
      order.subarray(Math.floor((bin * order.length) / BINS), Math.floor(((bin + 1) * order.length) / BINS)),
    ),
    white: at(1 - WHITE_SHARE),
    hasDarkTones: at(1 / BINS) < MOST_DARK_SHARE * at(1 - 1 / BINS),
  };
}

/** The constant of one plane over another, and how far the power leaves it open; percent of linear light 1. */
function offsetOf(one: Samples, other: Samples): { percent: number; open: number } | null {
  const scale = one.light.map((value) => 1 / (value + FLOOR_SHARE * one.white));
  let weights = scale.map((value) => value * value);
  for (let pass = 0; pass < PASSES; pass++) {
    const best = least(
      POWERS.filter((_, index) => index % FEWER_POWERS === 0).flatMap((power) => fitAt(power, one, other, weights, scale)),
    );
    if (!best) return null;
    const reach = TUKEY * Math.max(LEAST_ERROR, robustSpread(best.residuals, 0));
    weights = best.residuals.map((value, index) =>
      Math.abs(value) < reach ? ((scale[index] as number) * (1 - (value / reach) ** 2)) ** 2 : 0,
    );
  }
  const fits = POWERS.flatMap((power) => fitAt(power, one, other, weights, scale));
  const best = least(fits);
  if (!best) return null;
  const asGood = fits.filter(({ misfit }) => misfit <= AS_GOOD * best.misfit + BINS * LEAST_ERROR ** 2).map(({ offset }) => offset);
  return { percent: 100 * best.offset, open: 50 * (Math.max(...asGood) - Math.min(...asGood)) };
}

type Fit = {
  readonly offset: number;
  /** of the medians of the bins */
  readonly misfit: number;
  /** as shares of the light */
  readonly residuals: Float64Array;
};

const least = (fits: readonly Fit[]): Fit | null =>
  fits.reduce<Fit | null>((best, fit) => (best && best.misfit <= fit.misfit ? best : fit), null);

/** Under one power, the smooth light and the constant are linear: one step of least squares. Empty where the places do not fix them. */
function fitAt(power: number, one: Samples, other: Samples, weights: Float64Array, scale: Float64Array): Fit[] {
  const curved = other.light.map((value) => value ** power);
  const size = TERMS + 1;
  const matrix = new Array<number>(size * size).fill(0);
  const right = new Array<number>(size).fill(0);
  const row = new Float64Array(size);
  row[TERMS] = 1;
  for (let index = 0; index < weights.length; index++) {
    const weight = weights[index] as number;
    if (weight === 0) continue;
    for (let k = 0; k < TERMS; k++) row[k] = (one.terms[index * TERMS + k] as number) * (curved[index] as number);
    for (let i = 0; i < size; i++) {
      const part = weight * (row[i] as number);
      right[i] = (right[i] as number) + part * (one.light[index] as number);
      for (let j = i; j < size; j++) matrix[i * size + j] = (matrix[i * size + j] as number) + part * (row[j] as number);
    }
  }
  for (let i = 0; i < size; i++) for (let j = 0; j < i; j++) matrix[i * size + j] = matrix[j * size + i] as number;
  const found = solve(matrix, right);
  if (!found) return [];
  const offset = found[TERMS] as number;
  const residuals = one.light.map((value, index) => {
    let light = 0;
    for (let k = 0; k < TERMS; k++) light += (found[k] as number) * (one.terms[index * TERMS + k] as number);
    return (value - offset - light * (curved[index] as number)) * (scale[index] as number);
  });
  const misfit = other.bins.reduce((sum, bin) => sum + median(Float64Array.from(bin, (at) => residuals[at] as number)) ** 2, 0);
  return [{ offset, misfit, residuals }];
}

/** Fits up to this many times the least misfit count as good too, and any that miss by no more than this share of the light. */
const AS_GOOD = 1.5;
const LEAST_ERROR = 0.005;

/** The capture that has the least veil against all others; -1 where none can be compared. */
function clearestOf(more: readonly (readonly (More | null)[])[]): number {
  const worst = more.map((row) => Math.max(...row.flatMap((each) => (each ? [each.percent] : []))));
  return worst.indexOf(Math.min(...worst.filter(Number.isFinite)));
}
