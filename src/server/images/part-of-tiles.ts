import { readFile } from "node:fs/promises";
import path from "node:path";
import { BEYOND } from "#domain/comparison/sample-screen.ts";
import { sharp } from "./policy.ts";
import { TILE, tilePath } from "./tiles.ts";

type Square = { readonly left: number; readonly top: number; readonly side: number };

/**
 * A square of a laid capture as a picture for the screen, put together from its tiles; grey where it reaches beyond them. Captures laid at
 * different samplings then stand at one physical scale. Nothing of the files it came from is left in it.
 * @param square px of the level; its corners lie on whole pixels
 * @param sidePx of the picture made
 * @param curve sRGB codes 0..1 at equal steps of the code, by which tones are altered; null leaves them
 * @returns JPEG; null where there are no such tiles
 */
export async function partOfTiles(
  folder: string,
  name: string,
  level: number,
  { left, top, side }: Square,
  { sidePx, curve }: { readonly sidePx: number; readonly curve: readonly number[] | null },
): Promise<Buffer | null> {
  const { sizePx, overlapPx } = TILE;
  const [firstColumn, firstRow] = [Math.max(0, Math.floor(left / sizePx)), Math.max(0, Math.floor(top / sizePx))];
  const [lastColumn, lastRow] = [Math.floor((left + side - 1) / sizePx), Math.floor((top + side - 1) / sizePx)];
  const [originX, originY] = [Math.min(left, firstColumn * sizePx - overlapPx), Math.min(top, firstRow * sizePx - overlapPx)];
  const tiles: { input: Buffer; left: number; top: number }[] = [];
  for (let row = firstRow; row <= lastRow; row++) {
    for (let column = firstColumn; column <= lastColumn; column++) {
      const input = await readFile(path.join(folder, tilePath(name, level, column, row))).catch(() => null);
      // a tile begins one pixel early, but for the first of a row or column
      const start = (index: number) => Math.max(0, index * sizePx - overlapPx);
      if (input) tiles.push({ input, left: start(column) - originX, top: start(row) - originY });
    }
  }
  if (tiles.length === 0) return null;
  const whole = (last: number, origin: number, from: number) => Math.max((last + 1) * sizePx + overlapPx, from + side) - origin;
  const ground = { r: BEYOND, g: BEYOND, b: BEYOND };
  const joined = await sharp({
    create: { width: whole(lastColumn, originX, left), height: whole(lastRow, originY, top), channels: 3, background: ground },
  })
    .composite(tiles)
    .png({ compressionLevel: 0 })
    .toBuffer();
  const { data, info } = await sharp(joined)
    .extract({ left: left - originX, top: top - originY, width: side, height: side })
    .resize(sidePx, sidePx)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return sharp(curve ? toned(data, curve) : data, { raw: { width: info.width, height: info.height, channels: 3 } })
    .withIccProfile("srgb")
    .jpeg({ quality: 92, chromaSubsampling: "4:4:4" })
    .toBuffer();
}

function toned(codes: Uint8Array, curve: readonly number[]): Uint8Array {
  const table = Uint8Array.from({ length: 256 }, (_, code) => {
    const at = (code / 255) * (curve.length - 1);
    const below = Math.min(curve.length - 2, Math.floor(at));
    const [one, next] = [curve[below] as number, curve[below + 1] as number];
    return Math.round(255 * (one + (next - one) * (at - below)));
  });
  return codes.map((code) => table[code] as number);
}
