import type { Laid } from "../laying/lay-finely.ts";
import { commonPlaces } from "../laying/matched.ts";
import { median, robustSpread } from "../numbers/robust.ts";
import { blurred } from "../planes/grid-plane.ts";
import type { Reading } from "../reading.ts";
import { BINS, fitVeil, POWERS, type Samples, samplesOf, scaleOf, TUKEY, type VeilFit } from "./veil-fit.ts";

/**
 * Veil by comparison: hazePercent = 100 · black / white, where black is the light that a capture has more in its shadows than the clearest of
 * the others, and white the file's own white, linear light 1: paper is never brighter, so that the share is never told too high. Between two captures Y_A = L · Y_B^g + b: a veil is the
 * constant b, another tone curve the power g, other light the second-order surface L of place. For each of 21 powers L and b are fitted in one
 * linear step on at most 2500 places, relative errors alike, outliers left out (Tukey's weights); the power that leaves least in the medians of 32 equally
 * filled bins of B holds. Both ways, and the mean taken, since noise and blur raise b either way by the same.
 *
 * At least, where it is more than a hint: the veil that the clearest has too is not in it. Absent for the clearest itself (what it says alone holds), where no capture is clearer
 * by more than the spread, and where the picture has no range of tones. A hint where it is less than two thirds of what the darkest tones
 * get: tone curves differ by more than a power, and of drawn ones that bend in the middle each looked like a veil of up to 0.61 of the darkest light. Spread: half the disagreement of both ways, and what
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
  const samples = planes.map((plane) => samplesOf(plane, chosen));
  const more = moreVeils(samples);
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
        ...(found.percent < MAY_BE_A_CURVE * 100 * (samples[index] as Samples).darkest
          ? { reliability: "weak", note: `${MORE} ${OR_A_CURVE}` }
          : { bound: "lower", reliability: alike ? "firm" : "fair", note: MORE }),
        detail: { of: "picture", comparedWith: laid.length - 1 },
      },
    ];
  });
}

export const HAZE_TOGETHER = ["hazePercent"] as const;

const MORE = "More than in the clearest of the other captures; veil that both have is not in it.";
const OR_A_CURVE =
  "Another tone curve can look the same, where a veil is only a part of the light of the darkest tones; captures by one device with the same settings would tell.";
/** Of the darkest tones' light. From drawn tone curves. */
const MAY_BE_A_CURVE = 0.67;
const TOO_FEW_TONES = "the picture has too few dark tones to tell a veil from other light";
const SMOOTHING_PX = 2;
const MARGIN_PX = 4;
const FEWEST_PLACES = 400;
/** More would fix the constant no better. */
const MOST_PLACES = 2500;
const LEAST_PERCENT = 0.4;
const TIMES_SPREAD = 2;
const LEAST_SPREAD_PERCENT = 0.3;
/** Of weights for outliers, found with every so-and-so-many-th power. */
const PASSES = 3;
const FEWER_POWERS = 4;

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

/** The constant of one plane over another, and how far the power leaves it open; percent of linear light 1. */
function offsetOf(one: Samples, other: Samples): { percent: number; open: number } | null {
  const scale = scaleOf(one);
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

type Fit = VeilFit & {
  /** of the medians of the bins */
  readonly misfit: number;
};

const least = (fits: readonly Fit[]): Fit | null =>
  fits.reduce<Fit | null>((best, fit) => (best && best.misfit <= fit.misfit ? best : fit), null);

function fitAt(power: number, one: Samples, other: Samples, weights: Float64Array, scale: Float64Array): Fit[] {
  const fit = fitVeil(power, one, other, weights, scale);
  if (!fit) return [];
  const misfit = other.bins.reduce((sum, bin) => sum + median(Float64Array.from(bin, (at) => fit.residuals[at] as number)) ** 2, 0);
  return [{ ...fit, misfit }];
}

/** Fits up to this many times the least misfit count as good too, and any that miss by no more than this share of the light. */
const AS_GOOD = 1.5;
const LEAST_ERROR = 0.005;

/** The capture that has the least veil against all others; -1 where none can be compared. */
function clearestOf(more: readonly (readonly (More | null)[])[]): number {
  const worst = more.map((row) => Math.max(...row.flatMap((each) => (each ? [each.percent] : []))));
  return worst.indexOf(Math.min(...worst.filter(Number.isFinite)));
}
