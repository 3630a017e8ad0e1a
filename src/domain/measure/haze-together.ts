import { blurred, type GridPlane } from "./grid-plane.ts";
import type { Laid } from "./lay-finely.ts";
import { solve } from "./least-squares.ts";
import { commonPlaces, matchedOnto } from "./matched.ts";
import type { Reading } from "./reading.ts";
import { median } from "./robust.ts";

/**
 * Veil by comparison: hazePercent = 100 · black / white, where black is the light that a capture has more in its shadows than the clearest of
 * the others, and white the file's own white, linear light 1: paper is never brighter, so that the share is never told too high. Between two captures Y_A = a · Y_B^g + b, smooth light taken out: a veil is the
 * constant b, another tone curve the power g. Fitted to medians of A in 32 equally filled bins of B, relative errors alike; both
 * ways, and the mean taken, since noise and blur raise b either way by the same.
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
  const more = moreVeils(planes, places);
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
const TURNS = 2;

type More = { readonly percent: number; readonly spread: number };

/** Of each plane against each other; each pair is looked at once. */
function moreVeils(planes: readonly GridPlane[], places: Int32Array): (More | null)[][] {
  const more: (More | null)[][] = planes.map(() => planes.map(() => null));
  planes.forEach((one, i) => {
    for (const [j, other] of planes.slice(0, i).entries()) {
      const found = moreVeil(one, other, places);
      (more[i] as (More | null)[])[j] = found;
      (more[j] as (More | null)[])[i] = found && { percent: -found.percent, spread: found.spread };
    }
  });
  return more;
}

/** How much more veil one plane has than another, percent of linear light 1; negative where it has less. */
function moreVeil(one: GridPlane, other: GridPlane, places: Int32Array): More | null {
  if (![one, other].some((plane) => hasDarkTones(plane, places))) return null;
  const [there, back] = [offsetOf(one, other, places), offsetOf(other, one, places)];
  if (!there || !back) return null;
  return {
    percent: (there.percent - back.percent) / 2,
    spread: Math.max(LEAST_SPREAD_PERCENT, Math.abs(there.percent + back.percent) / 2, (there.open + back.open) / 2),
  };
}

/** Whether its dark places are much darker than its bright ones. */
function hasDarkTones(plane: GridPlane, places: Int32Array): boolean {
  const sorted = Float32Array.from(places, (at) => plane.data[at] as number).sort();
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))] as number;
  return at(1 / BINS) < MOST_DARK_SHARE * at(1 - 1 / BINS);
}

/** The constant of one plane over another, and how far the power leaves it open; percent of linear light 1. */
function offsetOf(one: GridPlane, other: GridPlane, places: Int32Array): { percent: number; open: number } | null {
  const { width, height } = one;
  const sorted = Float32Array.from(places, (at) => one.data[at] as number).sort();
  const white = sorted[Math.floor((1 - WHITE_SHARE) * (sorted.length - 1))] as number;
  let offset = 0;
  let open = 0;
  for (let turn = 0; turn < TURNS; turn++) {
    const cleared = { width, height, data: one.data.map((value) => value - offset) };
    const { light } = matchedOnto(cleared, other, places);
    const lightAt = (at: number) =>
      light ? light.at((2 * (at % width)) / (width - 1) - 1, (2 * Math.floor(at / width)) / (height - 1) - 1) : 1;
    const evened = Float32Array.from(places, (at) => (cleared.data[at] as number) / lightAt(at) + offset);
    const fit = straightest(
      binned(
        Float32Array.from(places, (at) => other.data[at] as number),
        evened,
      ),
      white,
    );
    if (!fit) return null;
    offset = fit.offset;
    open = fit.open;
  }
  return { percent: 100 * offset, open: 100 * open };
}

type Tones = { readonly from: readonly number[]; readonly to: readonly number[] };

function binned(from: Float32Array, to: Float32Array): Tones {
  const order = Uint32Array.from(from.keys()).sort((a, b) => (from[a] as number) - (from[b] as number));
  const bins = Array.from({ length: BINS }, (_, bin) =>
    order.subarray(Math.floor((bin * order.length) / BINS), Math.floor(((bin + 1) * order.length) / BINS)),
  );
  const middles = (values: Float32Array) => bins.map((bin) => median(Float32Array.from(bin, (at) => values[at] as number)));
  return { from: middles(from), to: middles(to) };
}

/** The power under which the tones lie straightest, and the constant of that line. */
function straightest({ from, to }: Tones, white: number): { offset: number; open: number } | null {
  const fits = POWERS.flatMap((power) => {
    const x = from.map((value) => Math.max(0, value) ** power);
    let [n, sx, sxx, sy, sxy] = [0, 0, 0, 0, 0];
    const weights = to.map((value) => 1 / (Math.max(0, value) + FLOOR_SHARE * white) ** 2);
    weights.forEach((weight, k) => {
      const [a, b] = [x[k] as number, to[k] as number];
      n += weight;
      sx += weight * a;
      sxx += weight * a * a;
      sy += weight * b;
      sxy += weight * a * b;
    });
    const terms = solve([n, sx, sx, sxx], [sy, sxy]);
    if (!terms) return [];
    const [offset, slope] = terms as [number, number];
    const misfit = weights.reduce((sum, weight, k) => sum + weight * ((to[k] as number) - offset - slope * (x[k] as number)) ** 2, 0);
    return [{ offset, misfit }];
  });
  if (fits.length === 0) return null;
  const best = fits.reduce((least, fit) => (fit.misfit < least.misfit ? fit : least));
  const asGood = fits.filter(({ misfit }) => misfit <= AS_GOOD * best.misfit + BINS * LEAST_ERROR ** 2).map(({ offset }) => offset);
  return { offset: best.offset, open: (Math.max(...asGood) - Math.min(...asGood)) / 2 };
}

/** Fits up to this many times the least misfit count as good too, and any that miss by no more than this share of the light. */
const AS_GOOD = 1.5;
const LEAST_ERROR = 0.005;

/** The capture that has the least veil against all others; -1 where none can be compared. */
function clearestOf(more: readonly (readonly (More | null)[])[]): number {
  const worst = more.map((row) => Math.max(...row.flatMap((each) => (each ? [each.percent] : []))));
  return worst.indexOf(Math.min(...worst.filter(Number.isFinite)));
}
