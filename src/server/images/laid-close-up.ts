import path from "node:path";
import type { OverlayOptions } from "sharp";
import { sharp } from "./policy.ts";
import { TILE, tileLevels, tilePath } from "./tiles.ts";

export type LaidTiles = { readonly folder: string; readonly captureId: number; readonly widthPx: number; readonly heightPx: number };
type Square = { readonly leftPx: number; readonly topPx: number; readonly sizePx: number };

/**
 * A square of a laid capture (see tiles.ts) from its finest tiles, brought to a side of so many pixels: captures laid at different samplings
 * then stand at one physical scale. Nothing of the files it came from is left in it.
 * @param square px of the laid capture, inside it
 * @returns JPEG
 */
export async function laidCloseUp(laid: LaidTiles, square: Square, sidePx: number): Promise<Buffer> {
  const { finest } = tileLevels(laid.widthPx, laid.heightPx);
  const tileAt = (px: number) => Math.floor(px / TILE.sizePx);
  // all but the first of a row or column begin with a pixel of their neighbour
  const startOf = (index: number) => index * TILE.sizePx - (index > 0 ? TILE.overlapPx : 0);
  const [left, top] = [tileAt(square.leftPx), tileAt(square.topPx)];
  const [right, bottom] = [tileAt(square.leftPx + square.sizePx - 1), tileAt(square.topPx + square.sizePx - 1)];
  const tiles: OverlayOptions[] = [];
  for (let row = top; row <= bottom; row++)
    for (let column = left; column <= right; column++)
      tiles.push({
        input: path.join(laid.folder, tilePath(String(laid.captureId), finest, column, row)),
        left: startOf(column) - startOf(left),
        top: startOf(row) - startOf(top),
      });
  const { data, info } = await sharp({
    create: {
      width: (right - left + 1) * TILE.sizePx + 2 * TILE.overlapPx,
      height: (bottom - top + 1) * TILE.sizePx + 2 * TILE.overlapPx,
      channels: 3,
      background: "#969696",
    },
  })
    .composite(tiles)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return sharp(data, { raw: info })
    .extract({ left: square.leftPx - startOf(left), top: square.topPx - startOf(top), width: square.sizePx, height: square.sizePx })
    .resize(sidePx, sidePx, { kernel: "lanczos3" })
    .withIccProfile("srgb")
    .jpeg({ quality: 92, chromaSubsampling: "4:4:4" })
    .toBuffer();
}
