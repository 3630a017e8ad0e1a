import { homographyFromMm, inverse, project } from "../homography.ts";
import { aspectOf, lengthOf } from "../lines.ts";
import type { Picture, Point, Quad } from "../picture.ts";

/** The picture as patches of about a hundredth of its longer side, each read at 6 × 6 of its pixels. */
export type PicturePatches = {
  readonly columns: number;
  readonly rows: number;
  /** lowest of the mean R, G, B of each patch, linear */
  readonly darkest: Float32Array;
  readonly saturation: Float32Array;
  /** standard deviation of green over its mean */
  readonly texture: Float32Array;
  /** mean luminance Y, 0..1 */
  readonly luminance: Float32Array;
  /** share of the pixels looked at with all three channels at their upper end */
  readonly clipped: Float32Array;
  /** a place of the frame in patches: 0..columns, 0..rows inside */
  readonly patchAt: (place: Point) => Point;
  /** the middle of a patch in the frame */
  readonly placeOf: (at: number) => Point;
};

/** Patches along the longer side of the picture; fewer where they would hold too few pixels. */
const MOST_ALONG = 96;
const FEWEST_ALONG = 24;
const SAMPLES_ALONG = 6;
const SMALLEST_PATCH_PX = 3;
const UPPER_END = 0.98;

/** Null where the area is too small, or more than a tenth of it lies outside the frame. */
export function picturePatches(picture: Picture, area: Quad): PicturePatches | null {
  const aspect = aspectOf(area);
  const longSidePx = Math.max(lengthOf(area, "top"), lengthOf(area, "left"));
  const along = Math.min(MOST_ALONG, longSidePx / SMALLEST_PATCH_PX);
  if (!(along >= FEWEST_ALONG && Number.isFinite(aspect))) return null;
  const columns = Math.max(1, Math.round(along * Math.min(1, aspect)));
  const rows = Math.max(1, Math.round(along * Math.min(1, 1 / aspect)));
  const map = homographyFromMm(columns, rows, area);
  if (!map.every(Number.isFinite)) return null;
  const darkest = new Float32Array(columns * rows);
  const saturation = new Float32Array(columns * rows);
  const texture = new Float32Array(columns * rows);
  const luminance = new Float32Array(columns * rows);
  const clipped = new Float32Array(columns * rows);
  const [r, g, b] = [picture.toXyzD50[3] as number, picture.toXyzD50[4] as number, picture.toXyzD50[5] as number];
  let outside = 0;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const at = row * columns + column;
      const read = readPatch(picture, project(map, column, row), project(map, column + 1, row), project(map, column, row + 1));
      if (!read) {
        outside++;
        saturation[at] = 1;
        continue;
      }
      const most = Math.max(read.red, read.green, read.blue);
      const least = Math.min(read.red, read.green, read.blue);
      darkest[at] = least;
      saturation[at] = most > 0 ? (most - least) / most : 0;
      texture[at] = read.contrast;
      luminance[at] = r * read.red + g * read.green + b * read.blue;
      clipped[at] = read.clipped;
    }
  }
  if (outside > 0.1 * columns * rows) return null;
  const back = inverse(map);
  return {
    columns,
    rows,
    darkest,
    saturation,
    texture,
    luminance,
    clipped,
    patchAt: ({ x, y }) => project(back, x, y),
    placeOf: (at) => project(map, (at % columns) + 0.5, Math.floor(at / columns) + 0.5),
  };
}

function readPatch({ codes, widthPx, heightPx, maxCode, linearOf }: Picture, corner: Point, right: Point, below: Point) {
  const [redOf, greenOf, blueOf] = linearOf;
  const upperEnd = UPPER_END * maxCode;
  let red = 0;
  let green = 0;
  let blue = 0;
  let greenSquares = 0;
  let clipped = 0;
  // half a px on, so that the px of a place is what lies below it
  const [cornerX, cornerY] = [corner.x + 0.5, corner.y + 0.5];
  const [acrossX, acrossY] = [right.x - corner.x, right.y - corner.y];
  const [downX, downY] = [below.x - corner.x, below.y - corner.y];
  for (let j = 0; j < SAMPLES_ALONG; j++) {
    const t = (j + 0.5) / SAMPLES_ALONG;
    for (let i = 0; i < SAMPLES_ALONG; i++) {
      const s = (i + 0.5) / SAMPLES_ALONG;
      const x = Math.floor(cornerX + acrossX * s + downX * t);
      const y = Math.floor(cornerY + acrossY * s + downY * t);
      if (!(x >= 0 && y >= 0 && x < widthPx && y < heightPx)) return null;
      const at = ((y | 0) * widthPx + (x | 0)) * 3;
      const g = greenOf[codes[at + 1] as number] as number;
      red += redOf[codes[at] as number] as number;
      green += g;
      greenSquares += g * g;
      blue += blueOf[codes[at + 2] as number] as number;
      if ((codes[at] as number) > upperEnd && (codes[at + 1] as number) > upperEnd && (codes[at + 2] as number) > upperEnd) clipped++;
    }
  }
  const count = SAMPLES_ALONG ** 2;
  const mean = green / count;
  const deviation = Math.sqrt(Math.max(0, greenSquares / count - mean * mean));
  return { red: red / count, green: mean, blue: blue / count, contrast: mean > 0 ? deviation / mean : 0, clipped: clipped / count };
}
