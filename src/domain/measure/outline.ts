import { areaOf, centreOf, cornersOf, lengthOf } from "./lines.ts";
import { findRectangles, findRectanglesInside } from "./outline-coarse.ts";
import { croppedOutline } from "./outline-cropped.ts";
import { outlineFromSheet } from "./outline-from-sheet.ts";
import { findImageInwards } from "./outline-image.ts";
import { outlineFromImage } from "./outline-on-white.ts";
import type { Picture, Quad } from "./picture.ts";
import type { MeasureContext, Outline } from "./reading.ts";
import { overlap, type Rectangle } from "./rectangle.ts";
import { reducedCopy } from "./reduced-copy.ts";
import type { Search } from "./search.ts";
import { leastMisfit } from "./size-as-seen.ts";

/** Frames smaller than this hold no print that could be measured. */
const LEAST_FRAME_PX = 48;

/**
 * Where the prints lie in the frame, in reading order; none when there is none to be told from its ground.
 *
 * Found on a reduced copy as rectangles that differ from what surrounds them, inside each other as board, sheet and
 * picture; which is which is told by the catalogued sizes and by the plain border. Then found again in the full picture
 * to a fraction of a pixel. Sizes of the context need not be those of every print on the bed: they break ties only.
 */
export function findOutlines(picture: Picture, context: MeasureContext): Outline[] {
  if (Math.min(picture.widthPx, picture.heightPx) < LEAST_FRAME_PX) return [];
  const search: Search = { picture, context, copy: reducedCopy(picture) };
  const found = findRectangles(search.copy).flatMap((rectangle) => printsIn(search, rectangle, 0));
  const fitting = found.some(({ sheet, image }) => fits(search, sheet) || (image && fits(search, image)));
  const whole = fitting ? null : croppedOutline(search, found.length === 0);
  return whole ? [whole] : inReadingOrder(found);
}

/** Has the proportions of the catalogued sheet or picture. */
const fits = ({ context }: Search, quad: Quad) =>
  leastMisfit(quad, context.sheetWidthMm, context.sheetHeightMm) < 0.02 ||
  leastMisfit(quad, context.imageWidthMm, context.imageHeightMm) < 0.02;

function printsIn(search: Search, rectangle: Rectangle, depth: number): Outline[] {
  const inner = findRectanglesInside(search.copy, rectangle);
  if (depth === 0 && isBoard(search, rectangle, inner)) return inner.flatMap((each) => printsIn(search, each, depth + 1));
  const image = pictureAmong(rectangle, inner) ?? findImageInwards(search.copy, rectangle.quad);
  if (depth === 0 && !image && isPictureAlone(search, rectangle)) return [outlineFromImage(search, rectangle)];
  return [outlineFromSheet(search, rectangle, image)];
}

/** A board or an album page carries prints; a sheet carries one picture. */
function isBoard({ copy, context }: Search, outer: Rectangle, inner: readonly Rectangle[]): boolean {
  const fitsSheet = (quad: Quad) => leastMisfit(quad, context.sheetWidthMm, context.sheetHeightMm) < 0.02;
  if (fitsSheet(outer.quad)) return false;
  if (inner.length > 1) return true;
  const [only] = inner;
  if (!only) return false;
  if (fitsSheet(only.quad)) return true;
  return only.margin.plain > 0.9 && only.margin.lightness > 65 && pictureAmong(only, findRectanglesInside(copy, only)) !== null;
}

/** The largest inner rectangle, when it fills enough of the sheet to be its picture. */
function pictureAmong(sheet: Rectangle, inner: readonly Rectangle[]): Rectangle | null {
  const largest = inner.reduce<Rectangle | null>((best, each) => (best && area(best) >= area(each) ? best : each), null);
  return largest && area(largest) > 0.2 * area(sheet) && overlap(largest.quad, sheet.quad) > 0.97 ? largest : null;
}

/**
 * On a white ground the border of the sheet is lost and the picture alone stands out: textured just inside, bright and
 * plain and colourless outside. Proportions decide where the sizes are known and differ.
 */
function isPictureAlone({ context }: Search, found: Rectangle): boolean {
  if (Object.values(found.sides).includes("frame")) return false;
  const asSheet = leastMisfit(found.quad, context.sheetWidthMm, context.sheetHeightMm);
  const asImage = leastMisfit(found.quad, context.imageWidthMm, context.imageHeightMm);
  if (context.imageWidthMm !== null && context.imageWidthMm === context.sheetWidthMm) return false;
  if (asImage < 0.02 && asSheet > 0.035) return true;
  if (asSheet < 0.02 && asImage > 0.035) return false;
  return found.margin.plain < 0.6 && found.around.plain > 0.85 && found.around.lightness > 75 && found.around.chroma < 15;
}

const area = (each: Rectangle) => areaOf(cornersOf(each.quad));

/** Rows from the top, each from the left; prints whose middles are within half a height of each other share a row. */
function inReadingOrder(outlines: readonly Outline[]): Outline[] {
  const rows: Outline[][] = [];
  for (const outline of [...outlines].sort((p, q) => centreOf(p.sheet).y - centreOf(q.sheet).y)) {
    const row = rows[rows.length - 1];
    const first = row?.[0];
    if (row && first && centreOf(outline.sheet).y - centreOf(first.sheet).y < lengthOf(first.sheet, "left") / 2) row.push(outline);
    else rows.push([outline]);
  }
  return rows.flatMap((row) => row.sort((p, q) => centreOf(p.sheet).x - centreOf(q.sheet).x));
}
