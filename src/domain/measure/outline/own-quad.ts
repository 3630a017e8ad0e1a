import { quadOf } from "../lines.ts";
import { ownCorners } from "../own-corners.ts";
import type { Quad } from "../picture.ts";
import type { Outline } from "../reading.ts";
import { aspectMisfit, type SizeMm } from "../size-as-seen.ts";

/** Proportions must differ by this much from the upright size's before a print is taken to lie on its side. */
const ON_ITS_SIDE = 0.015;

/**
 * The sheet's corners named from the print's own top left, in px of the upright frame. Where the sheet's proportions say that it lies
 * on its side, it is turned by a quarter so that its own left is up; which of the two quarter turns it was, proportions cannot tell,
 * and so a print whose borders do not tell either must be captured upright for places on it to agree between captures.
 */
export function ownQuad(outline: Pick<Outline, "sheet" | "image">, sheet: SizeMm): Quad {
  const corners = ownCorners(outline);
  const quad = quadOf(corners);
  const turned = { widthMm: sheet.heightMm, heightMm: sheet.widthMm };
  const liesOnItsSide = aspectMisfit(quad, sheet) - aspectMisfit(quad, turned) > ON_ITS_SIDE;
  return liesOnItsSide ? quadOf([corners[3], corners[0], corners[1], corners[2]]) : quad;
}
