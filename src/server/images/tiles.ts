import { rm } from "node:fs/promises";
import path from "node:path";
import type { ScreenPicture } from "#domain/comparison/sample-screen.ts";
import { sharp } from "./policy.ts";

/** Each tile shows one pixel more of its neighbours, so that no seam has to be hidden by stretching it. */
export const TILE = { sizePx: 512, overlapPx: 1 } as const;

/** Times a canvas can be halved without a rest (domain/comparison/canvas.ts): coarser levels would lie beside each other by a share of a pixel. */
const EXACT_HALVINGS = 4;

/** The levels of a picture's tiles: each is half as fine as the next, and one pixel at level 0. */
export function tileLevels(widthPx: number, heightPx: number): { readonly finest: number; readonly coarsest: number } {
  const finest = Math.ceil(Math.log2(Math.max(widthPx, heightPx)));
  return { finest, coarsest: finest - EXACT_HALVINGS };
}

/**
 * Writes a picture as tiles of every level, `<name>_files/<level>/<column>_<row>.jpeg`: hardly compressed and with full colour
 * resolution, since detail is judged by them.
 */
export async function writeTiles(folder: string, name: string, { widthPx, heightPx, codes }: ScreenPicture): Promise<void> {
  await sharp(codes, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .jpeg({ quality: 92, chromaSubsampling: "4:4:4" })
    .tile({ size: TILE.sizePx, overlap: TILE.overlapPx, layout: "dz" })
    .toFile(path.join(folder, `${name}.dz`));
  // descriptions that nothing here asks for
  await rm(path.join(folder, `${name}.dzi`), { force: true });
  await rm(path.join(folder, `${name}_files`, "vips-properties.xml"), { force: true });
}

/** The path of a tile within the folder that holds it. Throws on anything but whole numbers, so that no stranger's text becomes a path. */
export function tilePath(name: string, level: number, column: number, row: number): string {
  if (![level, column, row].every((each) => Number.isSafeInteger(each) && each >= 0)) throw new Error("not a tile");
  return path.join(`${name}_files`, String(level), `${column}_${row}.jpeg`);
}
