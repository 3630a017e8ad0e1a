import { ciede2000 } from "../../measure/colour/ciede2000.ts";
import type { Lab } from "../../measure/colour/lab.ts";
import { median } from "../../measure/numbers/robust.ts";
import { labOfLight } from "./colour-sheet.ts";
import type { Tile } from "./tiles.ts";

/** How colours moved from the older to the newer capture, each the middle one of all tiles. */
export type ColourDrift = {
  readonly lightness: number;
  readonly chroma: number;
  /** ΔH*, signed: 2 √(C*₁ C*₂) sin(Δh / 2) (CIE 15, section 8.2.2; from memory) */
  readonly hue: number;
  readonly b: number;
  readonly ciede2000: number;
};

const FEWEST_TILES = 4;

/** Null where there are too few tiles. */
export function colourDrift(tiles: readonly Tile[]): ColourDrift | null {
  if (tiles.length < FEWEST_TILES) return null;
  const pairs = tiles.map(({ older, newer }) => [labOfLight(...older), labOfLight(...newer)] as const);
  const middle = (of: (older: Lab, newer: Lab) => number) => median(pairs.map(([older, newer]) => of(older, newer)));
  return {
    lightness: middle((older, newer) => newer[0] - older[0]),
    chroma: middle((older, newer) => chromaOf(newer) - chromaOf(older)),
    hue: middle(hueStep),
    b: middle((older, newer) => newer[2] - older[2]),
    ciede2000: middle(ciede2000),
  };
}

/** The middle colour of tiles in one capture. */
export function middleColour(tiles: readonly Tile[], which: "older" | "newer"): Lab {
  const colours = tiles.map((tile) => labOfLight(...tile[which]));
  const part = (index: 0 | 1 | 2) => median(colours.map((colour) => colour[index]));
  return [part(0), part(1), part(2)];
}

const chromaOf = ([, a, b]: Lab) => Math.hypot(a, b);

/** The sign is that of the turn, the short way round. */
function hueStep([, a, b]: Lab, [, a2, b2]: Lab): number {
  const turn = Math.atan2(a * b2 - b * a2, a * a2 + b * b2);
  return 2 * Math.sqrt(Math.hypot(a, b) * Math.hypot(a2, b2)) * Math.sin(turn / 2);
}
