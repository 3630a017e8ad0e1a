import type { FrameAxis } from "../border/border-profiles.ts";
import { distanceTo, SIDES, type SideLines } from "../lines.ts";
import { median, robustSpread } from "../numbers/robust.ts";
import { trimmedMean } from "../numbers/trimmed-mean.ts";
import type { Picture } from "../picture.ts";
import { lineContrasts } from "./line-contrasts.ts";
import type { Streak } from "./streak-search.ts";

export type SeenInPicture = "seen" | "not seen" | "cannot be told";

const MOST_LINES = 160;
/** px kept away from the edge of the picture */
const GUARD_PX = 3;
const FEWEST_LINES = 20;
/** The same is read at places beside the streak, to know what the picture itself does. */
const BESIDE = [-4, -3, -2, 2, 3, 4] as const;

/**
 * Whether a streak of the borders goes on through the picture: ln of the light on it less that on both sides of it, row
 * by row, the trimmed mean of many rows; against the same at six places beside it.
 */
export function seenInPicture(picture: Picture, image: SideLines, axis: FrameAxis, streak: Streak): SeenInPicture {
  const core = Math.max(1, Math.round(streak.widthPx / 2));
  const read = (atPx: number) => contrastAt(picture, image, axis, atPx, core);
  const here = read(streak.atPx);
  if (here === null) return "cannot be told";
  const beside = BESIDE.map((k) => read(streak.atPx + k * 2 * (core + 1))).filter((each) => each !== null);
  if (beside.length < 3) return "cannot be told";
  const middle = median(beside.map(({ mean }) => mean));
  const unsure = Math.max(here.spread, robustSpread(beside.map(({ mean }) => mean)));
  const expected = streak.strength * expectedShare(core, streak.widthPx);
  if (Math.abs(expected) < 3 * unsure) return "cannot be told";
  return (here.mean - middle) / expected > 1 / 3 ? "seen" : "not seen";
}

/** Contrast of core against flanks of a Gaussian of this width and of strength 1. */
function expectedShare(core: number, widthPx: number): number {
  const shape = (x: number) => Math.exp(-4 * Math.LN2 * (x / widthPx) ** 2);
  return meanOver(-core / 2, core / 2, shape) - meanOver(core + 1, 2 * core + 1, shape);
}

function meanOver(from: number, to: number, of: (x: number) => number): number {
  let sum = 0;
  for (let k = 0; k < 16; k++) sum += of(from + ((k + 0.5) / 16) * (to - from));
  return sum / 16;
}

function contrastAt(picture: Picture, image: SideLines, axis: FrameAxis, atPx: number, core: number) {
  const depth = axis === "columns" ? picture.heightPx : picture.widthPx;
  const isIn = (at: number, down: number) =>
    SIDES.every((side) => distanceTo(image[side], axis === "columns" ? { x: at, y: down } : { x: down, y: at }) > GUARD_PX);
  const lines: number[] = [];
  const [first, last] = [atPx - 2 * core - 1, atPx + 2 * core + 1];
  for (let down = 0; down < depth; down += Math.max(1, Math.floor(depth / MOST_LINES))) {
    if (isIn(first, down) && isIn(last, down)) lines.push(down);
  }
  const contrasts = lineContrasts(picture, axis, atPx, core, lines);
  if (contrasts.length < FEWEST_LINES) return null;
  return { mean: trimmedMean(contrasts), spread: (1.5 * robustSpread(contrasts)) / Math.sqrt(contrasts.length) };
}
