import { fitLight, type LightSurface } from "../numbers/light-surface.ts";
import type { GridPlane } from "../planes/grid-plane.ts";
import { toneMapFrom } from "./tone-map.ts";

/** Places that tones are mapped by; more would fix the map no better. */
const MOST_MAPPED_BY = 8000;
/** Tones and light are found in so many turns. */
const TURNS = 3;
/** Linear light below which ratios say nothing of the light. */
const DARKEST = 0.005;

export type Matched = {
  /** what the plane would be at a place if only tone and smooth light set it apart from the other */
  readonly expectedAt: (at: number) => number;
  /** the smooth light in which both differ, over -1..1 across and down; null where it could not be found */
  readonly light: LightSurface | null;
};

/**
 * Matches another plane of linear luminance to one laid on it: its tones mapped by the conditional median (tone-map.ts), times the
 * smooth light in which both still differ (light-surface.ts); each is found with the other taken out, in turns.
 * @param trusted places that count, without NaN in either
 */
export function matchedOnto({ width, height, data }: GridPlane, other: GridPlane, trusted: Int32Array): Matched {
  const uOf = (at: number) => (2 * (at % width)) / (width - 1) - 1;
  const vOf = (at: number) => (2 * Math.floor(at / width)) / (height - 1) - 1;
  const stride = Math.ceil(trusted.length / MOST_MAPPED_BY);
  const chosen = trusted.filter((_, index) => index % stride === 0);
  const here = Float32Array.from(chosen, (at) => data[at] as number);
  const there = Float32Array.from(chosen, (at) => other.data[at] as number);
  const u = Float32Array.from(chosen, uOf);
  const v = Float32Array.from(chosen, vOf);
  const mapOnto = toneMapFrom(there);
  let map = mapOnto(here);
  let light: LightSurface | null = null;
  for (let turn = 0; turn < TURNS; turn++) {
    const ratios = here.map((value, index) => Math.max(DARKEST, value) / Math.max(DARKEST, map(there[index] as number)));
    const lit = fitLight(u, v, ratios);
    if (!lit) break;
    light = lit;
    const evened = here.map((value, index) => value / lit.at(u[index] as number, v[index] as number));
    map = mapOnto(evened);
  }
  return { light, expectedAt: (at) => (light ? light.at(uOf(at), vOf(at)) : 1) * map(other.data[at] as number) };
}

/** Places inside the margin that every plane holds. */
export function commonPlaces(planes: readonly GridPlane[], marginPx: number): Int32Array {
  const { width, height } = planes[0] ?? { width: 0, height: 0 };
  const places: number[] = [];
  for (let y = marginPx; y < height - marginPx; y++) {
    for (let x = marginPx; x < width - marginPx; x++) {
      const at = y * width + x;
      let isSeen = true;
      for (let k = 0; k < planes.length; k++) if (Number.isNaN((planes[k] as GridPlane).data[at])) isSeen = false;
      if (isSeen) places.push(at);
    }
  }
  return Int32Array.from(places);
}
