import type { CloseUp, CloseUpKind } from "#domain/comparison/close-up-places.ts";
import type { LaidCapture, LaidSide } from "#domain/comparison/laid-side.ts";
import { partOfTiles } from "./part-of-tiles.ts";
import { tileLevels } from "./tiles.ts";

/** Side of a close-up on the screen. */
const CLOSE_UP_PX = 480;

/** The name of a close-up as captured, kept beside the tiles: a page asks for as many as eight, and tiles must not wait for them. */
export const closeUpName = (captureId: number, kind: CloseUpKind): string => `${captureId}-${kind}.jpg`;

/**
 * A square round a chosen place of the sheet, its corners on pixels of every capture alike: half millimetres are whole pixels in each.
 * @param curve brings its tones to the reference's; null leaves them
 * @returns JPEG; null where the capture has no tiles there
 */
export function closeUpOfLaid(
  folder: string,
  { canvas, closeUpMm }: Pick<LaidSide, "canvas" | "closeUpMm">,
  { captureId, pxPerMm }: Pick<LaidCapture, "captureId" | "pxPerMm">,
  { xMm, yMm }: CloseUp,
  curve: readonly number[] | null,
): Promise<Buffer | null> {
  const half = (value: number) => Math.round(2 * value) / 2;
  const { finest } = tileLevels(canvas.widthMm * pxPerMm, canvas.heightMm * pxPerMm);
  const square = {
    left: half(xMm + canvas.leftMm - closeUpMm / 2) * pxPerMm,
    top: half(yMm + canvas.topMm - closeUpMm / 2) * pxPerMm,
    side: closeUpMm * pxPerMm,
  };
  return partOfTiles(folder, String(captureId), finest, square, { sidePx: CLOSE_UP_PX, curve });
}
