import { aspectOf, lengthOf } from "./lines.ts";
import type { Quad } from "./picture.ts";
import type { MeasureContext } from "./reading.ts";

type Sizes = Pick<MeasureContext, "sheetWidthMm" | "sheetHeightMm" | "imageWidthMm" | "imageHeightMm">;

export type SizeMm = { readonly widthMm: number; readonly heightMm: number };

/** The catalogued sizes, turned to how the print lies in the frame. */
export type SizeAsSeen = {
  readonly sheet: SizeMm | null;
  readonly image: SizeMm | null;
  /** true when the print lies a quarter turn from how it is catalogued */
  readonly turned: boolean;
  /** false when the print is too nearly square to tell; scale then hardly depends on it */
  readonly isCertain: boolean;
};

/** Both ways round must differ by this much in proportions to be told apart. */
const TOLD_APART = 0.015;

/** Chooses the way round by the proportions of sheet and picture together; either quad may be missing. */
export function sizeAsSeen(sheet: Quad | null, image: Quad | null, context: MeasureContext): SizeAsSeen {
  const sheetMm = sizeOf(context.sheetWidthMm, context.sheetHeightMm);
  const imageMm = sizeOf(context.imageWidthMm, context.imageHeightMm);
  const misfitOf = (turned: boolean) => misfit(sheet, sheetMm, turned) + misfit(image, imageMm, turned);
  const upright = misfitOf(false);
  const onItsSide = misfitOf(true);
  const turned = onItsSide < upright;
  return {
    sheet: sheetMm && turnedBy(sheetMm, turned),
    image: imageMm && turnedBy(imageMm, turned),
    turned,
    isCertain: Math.abs(upright - onItsSide) > TOLD_APART,
  };
}

/** How far a quad's proportions are from a size's, as the natural logarithm of their ratio: 0.01 is one per cent. */
export function aspectMisfit(quad: Quad, size: SizeMm): number {
  return Math.abs(Math.log((aspectOf(quad) * size.heightMm) / size.widthMm));
}

/** The same, whichever way round fits better; infinite when the size is not known. */
export function leastMisfit(quad: Quad, widthMm: number | null, heightMm: number | null): number {
  const size = sizeOf(widthMm, heightMm);
  return size ? Math.min(aspectMisfit(quad, size), aspectMisfit(quad, turnedSize(size))) : Number.POSITIVE_INFINITY;
}

/**
 * How differently a picture fills its sheet from what the sizes say: the larger difference, over width and height, of
 * picture as a share of sheet; 0 when a size is not known.
 */
export function disagreementOf(sheet: Quad, image: Quad, sizes: Sizes): number {
  const { sheetWidthMm, sheetHeightMm, imageWidthMm, imageHeightMm } = sizes;
  if (!sheetWidthMm || !sheetHeightMm || !imageWidthMm || !imageHeightMm) return 0;
  const across = (lengthOf(image, "top") + lengthOf(image, "bottom")) / (lengthOf(sheet, "top") + lengthOf(sheet, "bottom"));
  const down = (lengthOf(image, "left") + lengthOf(image, "right")) / (lengthOf(sheet, "left") + lengthOf(sheet, "right"));
  const [width, height] = [imageWidthMm / sheetWidthMm, imageHeightMm / sheetHeightMm];
  return Math.min(Math.max(Math.abs(across - width), Math.abs(down - height)), Math.max(Math.abs(across - height), Math.abs(down - width)));
}

const misfit = (quad: Quad | null, size: SizeMm | null, turned: boolean) => (quad && size ? aspectMisfit(quad, turnedBy(size, turned)) : 0);

const turnedBy = (size: SizeMm, turned: boolean): SizeMm => (turned ? turnedSize(size) : size);

/** A size on its side. */
export const turnedSize = (size: SizeMm): SizeMm => ({ widthMm: size.heightMm, heightMm: size.widthMm });

function sizeOf(widthMm: number | null, heightMm: number | null): SizeMm | null {
  return widthMm !== null && heightMm !== null && widthMm > 0 && heightMm > 0 ? { widthMm, heightMm } : null;
}
