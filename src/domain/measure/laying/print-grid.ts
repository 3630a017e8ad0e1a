import { lightShares } from "../colour/light-shares.ts";
import { imageSize } from "../geometry/image-size.ts";
import { shareOfSheet } from "../geometry/share-of-sheet.ts";
import { type Homography, homographyFromMm } from "../homography.ts";
import { lengthOf } from "../lines.ts";
import type { Picture, Quad } from "../picture.ts";
import type { GridPlane } from "../planes/grid-plane.ts";
import type { MeasureContext, Outline } from "../reading.ts";
import { sizeAsSeen } from "../size-as-seen.ts";
import type { KnownBlur } from "./known-blur.ts";

/**
 * The picture area of a print, straightened: linear luminance Y, row by row, corners named as seen in the frame. NaN
 * where the frame cuts it off.
 */
export type PrintGrid = {
  readonly widthPx: number;
  readonly heightPx: number;
  /** null when the size of the print is not known */
  readonly pxPerMm: number | null;
  readonly data: Float32Array;
  /** where it lies in the frame, px; missing where only the grid is known */
  readonly quad?: Quad;
  /** of the sheet's area, 0 to 1 (share-of-sheet.ts); missing where it is not known */
  readonly shareOfSheet?: number;
  /** what the edges of the print told of this capture's blur; missing where it was measured before that was kept */
  readonly blur?: KnownBlur;
};

/** The grid as a plane, for what looks at planes. */
export const gridPlaneOf = ({ widthPx, heightPx, data }: PrintGrid): GridPlane => ({ width: widthPx, height: heightPx, data });

/** About 100 pixels per inch: enough for what is broad, such as glare. */
const PX_PER_MM = 4;
const MOST_SIDE_PX = 1200;
const SIDE_WITHOUT_SIZE_PX = 400;
/** Samples along one side of a grid cell, at the most; bounds the cost where the capture is very fine. */
const MOST_SAMPLES = 8;

/**
 * Straightens the picture area (else the sheet) of a print onto a regular grid, each cell the mean of the frame's pixels
 * in it, so that detail finer than a cell does not turn into a false pattern. Null where the quad is too small.
 */
export function makeGrid(
  picture: Picture,
  outline: Pick<Outline, "sheet" | "image" | "sides" | "doubt">,
  context: MeasureContext,
): PrintGrid | null {
  const quad = outline.image ?? outline.sheet;
  const seen = sizeAsSeen(outline.sheet, outline.image, context);
  const mm = outline.image ? imageSize({ ...outline, image: outline.image }, seen) : seen.sheet;
  const widthOfQuad = (lengthOf(quad, "top") + lengthOf(quad, "bottom")) / 2;
  const heightOfQuad = (lengthOf(quad, "left") + lengthOf(quad, "right")) / 2;
  if (widthOfQuad < 8 || heightOfQuad < 8) return null;
  const scale = mm
    ? Math.min(PX_PER_MM, MOST_SIDE_PX / Math.max(mm.widthMm, mm.heightMm))
    : SIDE_WITHOUT_SIZE_PX / Math.max(widthOfQuad, heightOfQuad);
  const widthPx = Math.max(2, Math.round((mm?.widthMm ?? widthOfQuad) * scale));
  const heightPx = Math.max(2, Math.round((mm?.heightMm ?? heightOfQuad) * scale));
  const map = homographyFromMm(widthPx, heightPx, quad);
  const samples = Math.min(MOST_SAMPLES, Math.max(1, Math.ceil(Math.max(widthOfQuad / widthPx, heightOfQuad / heightPx))));
  const data = meansOfCells(picture, map, widthPx, heightPx, samples);
  const share = shareOfSheet(outline, context, picture);
  return { widthPx, heightPx, pxPerMm: mm ? scale : null, data, quad, ...(share !== null && { shareOfSheet: share }) };
}

/**
 * Written out, since it looks at nearly every pixel of the print; NaN of a cell that is not wholly in the frame. Between the first and
 * the last sample along a cell the map is as good as straight.
 */
function meansOfCells(picture: Picture, map: Homography, columns: number, rows: number, samples: number): Float32Array {
  const { widthPx, heightPx, codes } = picture;
  const [red, green, blue] = lightShares(picture);
  const sums = new Float64Array(columns);
  const means = new Float32Array(columns * rows);
  const [a, b, c, d, e, f, g, h] = map;
  const perStep = 1 / Math.max(1, samples - 1);
  for (let row = 0; row < rows; row++) {
    sums.fill(0);
    for (let i = 0; i < samples; i++) {
      const v = row + (i + 0.5) / samples;
      const fromX = b * v + c;
      const fromY = e * v + f;
      const fromW = h * v + 1;
      for (let column = 0; column < columns; column++) {
        const u = column + 0.5 / samples;
        const lastU = column + 1 - 0.5 / samples;
        const perW = 1 / (g * u + fromW);
        const perLastW = 1 / (g * lastU + fromW);
        let x = (a * u + fromX) * perW + 0.5;
        let y = (d * u + fromY) * perW + 0.5;
        const lastX = (a * lastU + fromX) * perLastW + 0.5;
        const lastY = (d * lastU + fromY) * perLastW + 0.5;
        const isInFrame =
          x >= 0 && lastX >= 0 && x < widthPx && lastX < widthPx && y >= 0 && lastY >= 0 && y < heightPx && lastY < heightPx;
        if (!isInFrame) {
          sums[column] = Number.NaN;
          continue;
        }
        const stepX = (lastX - x) * perStep;
        const stepY = (lastY - y) * perStep;
        let sum = 0;
        for (let k = 0; k < samples; k++, x += stepX, y += stepY) {
          // "| 0" cuts to whole numbers that stay whole in the engine, which an index needs
          const at = ((y | 0) * widthPx + (x | 0)) * 3;
          sum +=
            (red[codes[at] as number] as number) + (green[codes[at + 1] as number] as number) + (blue[codes[at + 2] as number] as number);
        }
        sums[column] = (sums[column] as number) + sum;
      }
    }
    for (let column = 0; column < columns; column++) means[row * columns + column] = (sums[column] as number) / (samples * samples);
  }
  return means;
}
