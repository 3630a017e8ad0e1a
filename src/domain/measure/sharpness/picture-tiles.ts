import { lightShares } from "../colour/light-shares.ts";
import { distanceTo, linesOf, SIDES } from "../lines.ts";
import type { Picture, Point } from "../picture.ts";
import type { Outline } from "../reading.ts";

/** Samples along a side of a tile. */
export const TILE = 64;

/** Coarse tiles are large: they do not overlap, since what one line of the picture puts into several would look like a pattern. */
const TILES_A_SIDE = { fine: 8, coarse: 6 };
/** Added to all light, so that noise of the deepest shadows is no contrast. */
const DARKEST = 0.004;
const DARK = 0.02;

/** `middle`: of the tile, in the frame; `quarter`: of the picture, where the tile lies; 0 top left, 1 top right, 2 and 3 below. */
export type PictureTile = { readonly samples: Float32Array; readonly middle: Point; readonly quarter: number };

/** Tiles from all over the picture, every `stepPx`-th pixel; those too dark for their logarithm to say more than noise are left out. */
export function pictureTiles(picture: Picture, outline: Outline, stepPx: number, window: Float32Array): PictureTile[] {
  const corners = tilesIn(outline, stepPx);
  const middle = (values: readonly number[]) => (Math.min(...values) + Math.max(...values)) / 2;
  const [middleX, middleY] = [middle(corners.map(({ x }) => x)), middle(corners.map(({ y }) => y))];
  return corners.flatMap((corner) => {
    const samples = tileAt(picture, corner, stepPx, window);
    const reach = (TILE * stepPx - 1) / 2;
    return samples
      ? [
          {
            samples,
            middle: { x: corner.x + reach, y: corner.y + reach },
            quarter: (corner.x > middleX ? 1 : 0) + (corner.y > middleY ? 2 : 0),
          },
        ]
      : [];
  });
}

/** Upper left corners of tiles, evenly over the picture, that lie whole in it. */
function tilesIn({ image, sheet }: Outline, stepPx: number): Point[] {
  const sidePx = TILE * stepPx;
  const quad = image ?? sheet;
  const lines = linesOf(quad);
  const xs = [quad.topLeft.x, quad.topRight.x, quad.bottomRight.x, quad.bottomLeft.x];
  const ys = [quad.topLeft.y, quad.topRight.y, quad.bottomRight.y, quad.bottomLeft.y];
  const [left, top] = [Math.ceil(Math.min(...xs)), Math.ceil(Math.min(...ys))];
  const room = (values: readonly number[]) => Math.max(...values) - Math.min(...values) - sidePx;
  const places = (from: number, length: number) => {
    const most = stepPx > 1 ? Math.min(TILES_A_SIDE.coarse, Math.floor(length / sidePx) + 1) : TILES_A_SIDE.fine;
    const count = Math.min(most, Math.max(1, Math.floor((2 * length) / sidePx) + 1));
    return Array.from({ length: count }, (_, k) => from + Math.floor((length * (k + 0.5)) / count));
  };
  if (room(xs) < 0 || room(ys) < 0) return [];
  const isIn = ({ x, y }: Point) =>
    SIDES.every((side) => [0, sidePx].every((dx) => [0, sidePx].every((dy) => distanceTo(lines[side], { x: x + dx, y: y + dy }) > 2)));
  return places(top, room(ys))
    .flatMap((y) => places(left, room(xs)).map((x) => ({ x, y })))
    .filter(isIn);
}

/** ln of the light, less its mean, under the window; null where it is too dark. Written out, since it looks at millions of pixels. */
function tileAt(picture: Picture, corner: Point, stepPx: number, window: Float32Array): Float32Array | null {
  const { widthPx, heightPx, codes } = picture;
  const [red, green, blue] = lightShares(picture);
  // whole in the engine too, as an index must be
  const [left, top] = [corner.x | 0, corner.y | 0];
  const tile = new Float32Array(TILE * TILE);
  // of a picture that the frame cuts off a tile may reach beyond it; a cell does so as a whole or for some of its px
  const firstX = Math.max(0, -left);
  const lastX = Math.min(TILE * stepPx, widthPx - left);
  for (let row = 0; row < TILE * stepPx; row++) {
    const y = top + row;
    if (y < 0 || y >= heightPx) continue;
    const first = ((row / stepPx) | 0) * TILE;
    const start = (y * widthPx + left) * 3;
    for (let column = 0, cell = first; column < TILE; column++, cell++) {
      let light = 0;
      const to = Math.min(lastX, (column + 1) * stepPx);
      for (let x = Math.max(firstX, column * stepPx), at = start + 3 * x; x < to; x++, at += 3) {
        light +=
          (red[codes[at] as number] as number) + (green[codes[at + 1] as number] as number) + (blue[codes[at + 2] as number] as number);
      }
      tile[cell] = (tile[cell] as number) + light;
    }
  }
  let mean = 0;
  for (let cell = 0; cell < tile.length; cell++) {
    const log = Math.log(DARKEST + (tile[cell] as number) / stepPx ** 2);
    tile[cell] = log;
    mean += log / tile.length;
  }
  if (mean < Math.log(DARK)) return null;
  for (let cell = 0; cell < tile.length; cell++) tile[cell] = ((tile[cell] as number) - mean) * (window[cell] as number);
  return tile;
}
