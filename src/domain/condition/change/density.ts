import { median } from "../../measure/numbers/robust.ts";
import type { Light, Tile } from "./tiles.ts";

/**
 * Density of a place above the print's border, per channel: -log10 of its linear light over the border's in the same capture,
 * so that exposure and colour balance of a capture drop out. The channels are red, green and blue light of the sRGB primaries;
 * Status A densities (ISO 5-3), which the published limits are stated in, are narrower, so that figures agree only roughly.
 */
const densityOf = (light: number, white: number): number => -Math.log10(Math.max(DARKEST, light / white));

/** Density 4: nothing a capture shows is darker. */
const DARKEST = 1e-4;
/** The density whose loss is told, and how far from it places may start. */
const START = 1;
const STARTS_WITHIN = 0.3;
const FEWEST_PLACES = 40;

export type Whites = { readonly older: Light; readonly newer: Light };

/** The middle light of the border in both captures; null where too little of it is seen. */
export function whitesOf(border: readonly Tile[]): Whites | null {
  if (border.length < 4) return null;
  const middle = (which: "older" | "newer"): Light =>
    [0, 1, 2].map((channel) => median(border.map((tile) => tile[which][channel] as number))) as unknown as Light;
  return { older: middle("older"), newer: middle("newer") };
}

/** Density that the border itself gained, per channel. */
export const borderGain = ({ older, newer }: Whites): Light =>
  [0, 1, 2].map((channel) => densityOf(newer[channel] as number, older[channel] as number)) as unknown as Light;

/**
 * What is lost of a density of 1.0 above the border in one channel: 1.0 less the middle ratio of new to old density over
 * places that started between 0.7 and 1.3. Null where too few did.
 */
export function lossFromOne(places: readonly Tile[], whites: Whites, channel: 0 | 1 | 2): number | null {
  const ratios: number[] = [];
  for (const { older, newer } of places) {
    const before = densityOf(older[channel], whites.older[channel]);
    if (Math.abs(before - START) <= STARTS_WITHIN) ratios.push(densityOf(newer[channel], whites.newer[channel]) / before);
  }
  return ratios.length < FEWEST_PLACES ? null : START * (1 - median(ratios));
}

/** From the lightest to the darkest twentieth of the picture, in densities of green light; exposure drops out. */
export function densityRange(places: readonly Tile[], which: "older" | "newer"): number | null {
  if (places.length < FEWEST_PLACES) return null;
  const densities = places.map((tile) => densityOf(tile[which][1], 1)).sort((a, b) => a - b);
  const at = (share: number) => densities[Math.floor(share * (densities.length - 1))] as number;
  return at(0.95) - at(0.05);
}
