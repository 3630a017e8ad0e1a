import { lightnessOf } from "../colour/lab.ts";
import { makeGrid, type PrintGrid } from "../laying/print-grid.ts";
import { quantile } from "../numbers/robust.ts";
import type { Picture } from "../picture.ts";
import { blurred } from "../planes/grid-plane.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { type BorderShine, borderShine } from "./border-shine.ts";

/**
 * Veil of stray light over the whole print: hazePercent = 100 · black / white, in linear luminance. Black: below which 0.1 %
 * of the picture lies, on a grid of 0.25 mm smoothed so that noise does not lower it, the rim left out. White: the border's own
 * white at the middle of the print, else what 5 % of the picture lies above (so low that glare does not raise it). The print's own black is in it, and a picture may have
 * none: so always "at most", and absent above 100. It is lost contrast as well: a veil of 1 % leaves no more than a range of 100 to 1.
 *
 * Not seen: veil that software took away by lowering the black point.
 * Source: own; the definition follows veiling glare as black over white (ISO 9358 for lenses; from memory).
 */
export function haze(
  picture: Picture,
  outline: Outline | null,
  context: MeasureContext,
  shine: BorderShine | string = borderShine(picture, outline, context),
  grid: PrintGrid | null = outline && makeGrid(picture, outline, context),
): Reading[] {
  const name = "hazePercent";
  if (!outline) return [{ name, absent: "the print was not found in the frame" }];
  const inner = grid && innerOf(grid);
  if (!inner || inner.length < FEWEST_CELLS) return [{ name, absent: "the picture is too small to find its darkest places" }];
  const black = quantile(inner, SHARE);
  const fromBorder = typeof shine === "string" ? null : shine.light.at(0, 0);
  const white = fromBorder ?? quantile(inner, 1 - BRIGHT_SHARE);
  if (!(white > 0)) return [{ name, absent: "the picture is black all over" }];
  const value = (100 * black) / white;
  if (value > MOST_PERCENT) return [{ name, absent: NOTHING_DARK }];
  return [
    {
      name,
      value,
      reliability: value <= TELLING_PERCENT ? "fair" : "weak",
      bound: "upper",
      note: "The darkest places of the print itself are in it, so the veil is at most this; another capture of the print would tell.",
      detail: {
        blackLightness: lightnessOf(black),
        whiteLightness: lightnessOf(white),
        whiteOf: fromBorder === null ? "picture" : "border",
      },
    },
  ];
}

const SHARE = 0.001;
const BRIGHT_SHARE = 0.05;
/** Above this the picture has nothing dark, and the bound says little. */
const TELLING_PERCENT = 10;
/** A veil cannot be brighter than white: above this the picture is paler all over than its border. */
const MOST_PERCENT = 100;
const NOTHING_DARK =
  "the darkest places of the picture are brighter than the border, so they tell nothing of a veil; a second capture of the print under other light would tell";
const FEWEST_CELLS = 1000;
/** Standard deviation in cells. */
const SMOOTHING = 1.5;
/** Cells along the rim that the border reaches into. */
const RIM = 5;

function innerOf({ widthPx, heightPx, data }: PrintGrid): Float32Array {
  const smooth = blurred({ width: widthPx, height: heightPx, data }, SMOOTHING).data;
  const [columns, rows] = [Math.max(0, widthPx - 2 * RIM), Math.max(0, heightPx - 2 * RIM)];
  const inner = new Float32Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    const start = (row + RIM) * widthPx + RIM;
    inner.set(smooth.subarray(start, start + columns), row * columns);
  }
  return inner;
}
