import type { Border } from "../border/border.ts";
import { type BorderPatches, readBorderPatches } from "../border/border-patches.ts";
import { distanceTo, eachSide, endsOf, type Line, linesOf, opposite, SIDES, type Side } from "../lines.ts";
import type { LightSurface } from "../numbers/light-surface.ts";
import type { Picture } from "../picture.ts";
import { withoutSpecks } from "../planes/mask.ts";
import type { Outline } from "../reading.ts";
import { ABOVE_PAPER, isWhitePaper } from "./white-paper.ts";

/** What shines along the sides of the sheet where no border was told apart. */
export type HiddenShine = {
  readonly sides: readonly Side[];
  /** a strip along each such side, as wide as the narrowest border of the others, their patches in the sheet's grid */
  readonly patches: BorderPatches;
  /** of each, ln of its luminance over the light of the paper */
  readonly excess: Float32Array;
  /** 1 where it shines, on that grid */
  readonly shining: Uint8Array;
};

/**
 * A window that is mirrored along a side hides where the picture ends, so that no border is told apart there. Nothing of a print is brighter than its
 * paper: what is brighter in a strip along such a side than the light of the others shines: by 6 % where three of them were read, by 15 % where two that lie
 * opposite each other, so that the light between them is not guessed. Null where no side is hidden, where the others tell less or are not of white paper (white-paper.ts), and where too little of each strip is brighter.
 * Source: own.
 */
export function shineOfHiddenSides(
  picture: Picture,
  outline: Outline,
  { border, patches: others }: { readonly border: Border; readonly patches: BorderPatches },
  light: Pick<LightSurface, "at">,
): HiddenShine | null {
  const hidden = SIDES.filter((side) => !border.sides.includes(side) && outline.sides[side] === "seen");
  const limit = limitFor(border.sides);
  if (hidden.length === 0 || !outline.image || limit === null || !isWhitePaper(others, picture.toXyzD50, LEAST_LIGHTNESS)) return null;
  const patches = readBorderPatches(picture, outline, asWideAsOthers(border, outline.image, hidden));
  const { u, v, side, luminance, cell, columns, rows } = patches;
  const excess = luminance.map((value, index) => Math.log(Math.max(1e-6, value) / light.at(u[index] as number, v[index] as number)));
  const mask = new Uint8Array(columns * rows);
  excess.forEach((value, index) => {
    if (value > limit) mask[cell[index] as number] = 1;
  });
  const shining = withoutSpecks(mask, columns, rows, LEAST_SPECK);
  const shares = SIDES.map((_, number) => {
    const own = [...cell.keys()].filter((index) => side[index] === number);
    return own.filter((index) => shining[cell[index] as number] === 1).length / Math.max(1, own.length);
  });
  return shares.some((share) => share > LEAST_SHARE) ? { sides: hidden, patches, excess, shining } : null;
}

/** ln of luminance over that of the paper, above which it shines; null where the sides that were read tell too little of the light. Own. */
function limitFor(read: readonly Side[]): number | null {
  if (read.length >= 3) return Math.log(ABOVE_PAPER);
  const [one, other] = read;
  return one && other && opposite(one) === other ? Math.log(ABOVE_PAPER_OF_TWO) : null;
}

const ABOVE_PAPER_OF_TWO = 1.15;
/** L* of white paper in a capture that is exposed for what it mirrors. Own. */
const LEAST_LIGHTNESS = 60;
const LEAST_SPECK = 6;
/** Of a strip. */
const LEAST_SHARE = 0.1;

/** The border of the hidden sides alone, taken to be as wide as the narrowest of the others. */
function asWideAsOthers(border: Border, image: NonNullable<Outline["image"]>, hidden: readonly Side[]): Border {
  const widths = border.sides.map((side) => Math.min(...endsOf(image, side).map((end) => distanceTo(border.sheet[side], end))));
  const widthPx = Math.min(...widths);
  const own = linesOf(image);
  const moved = (line: Line): Line => ({ ...line, d: line.d - widthPx });
  return { ...border, image: eachSide((side) => (hidden.includes(side) ? moved(border.sheet[side]) : own[side])), sides: hidden };
}
