import type { Laid } from "../laying/lay-finely.ts";
import { commonPlaces } from "../laying/matched.ts";
import { median } from "../numbers/robust.ts";
import { evenlyWithin } from "../numbers/standard-uncertainty.ts";
import { blurred } from "../planes/grid-plane.ts";
import type { Reading } from "../reading.ts";
import { shinesInAny } from "./glare-together.ts";
import { lightBetween } from "./light-between.ts";

/**
 * Evenness of the light by comparison, over the whole picture: evennessPercent = 100 (1 - lowest / highest) of the smooth light
 * (light-between.ts) in which a capture differs from the others. Places that are told to shine in any of them (glare-together.ts) are left out;
 * with too few others left it is absent.
 *
 * Three captures or more: against the median of all at each place of a grid of 9 × 9, so that the light of one that is lit
 * otherwise falls to that one alone: fair. Two captures: only the ratio of both lights is known, and it may be of either: both get
 * it, weak. Either way "at least": how far all lights fall off alike is not seen; the print's own fading cancels.
 * A strong veil over a dark picture reads as uneven light in part. Spread: from drawn captures.
 * Source: own.
 */
export function evennessTogether(laid: readonly Laid[]): Reading[][] {
  const name = EVENNESS_TOGETHER[0];
  const planes = laid.map(({ coarse }) => blurred(coarse, SMOOTHING_PX));
  const seen = commonPlaces(planes, MARGIN_PX);
  const shines = seen.length < FEWEST_PLACES ? null : shinesInAny(laid);
  const places = shines ? seen.filter((at) => shines[at] === 0) : seen;
  const first = planes[0];
  if (places.length < LEAST_LEFT * seen.length) return laid.map(() => [{ name, absent: TOO_MUCH_SHINES }]);
  const lights = places.length < FEWEST_PLACES ? [] : planes.map((plane) => first && lightBetween(plane, first, places));
  const surfaces = lights.flatMap((light) => (light ? [centred(GRID.map(({ u, v }) => light(u, v)))] : []));
  if (surfaces.length < laid.length)
    return laid.map(() => [{ name, absent: "too little of the picture is seen in all captures to compare their light" }]);
  const own = surfaces.map((surface, index) => {
    const shared = laid.length === 2 ? surfaces[1 - index] : GRID.map((_, at) => median(surfaces.map((each) => each[at] as number)));
    return surface.map((value, at) => value - ((shared as readonly number[])[at] as number));
  });
  const values = own.map((light) => 100 * (1 - Math.exp(Math.min(...light) - Math.max(...light))));
  const spread = evenlyWithin(Math.max(WITHIN_PERCENT, WITHIN_SHARE * Math.max(...values)));
  return own.map((light, index) => {
    const darkest = GRID[light.indexOf(Math.min(...light))] as (typeof GRID)[number];
    return [
      {
        name,
        value: values[index] as number,
        spread,
        bound: "lower",
        reliability: laid.length === 2 ? "weak" : "fair",
        note: laid.length === 2 ? OF_TWO : "Light that all captures have in common is not in it.",
        detail: { of: "picture", comparedWith: laid.length - 1, darkestAt: { across: (darkest.u + 1) / 2, down: (darkest.v + 1) / 2 } },
      },
    ];
  });
}

export const EVENNESS_TOGETHER = ["evennessPercent"] as const;

const SMOOTHING_PX = 2;
const MARGIN_PX = 4;
const FEWEST_PLACES = 400;
/** Share of the places that must not shine: over more than half of the picture nobody knows how the light goes on. */
const LEAST_LEFT = 0.5;
const TOO_MUCH_SHINES = "one of the captures shines over so much of the picture that their light cannot be compared";
/** Drawn captures were read within this. */
const WITHIN_PERCENT = 4;
/** Of the most uneven light of the set, which draws the others with it. */
const WITHIN_SHARE = 0.15;
const OF_TWO = "By so much the light of both captures differs; which of them is lit unevenly, a third would tell.";
const GRID = Array.from({ length: 81 }, (_, index) => ({ u: (index % 9) / 4 - 1, v: Math.floor(index / 9) / 4 - 1 }));

function centred(values: readonly number[]): number[] {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.map((value) => value - mean);
}
