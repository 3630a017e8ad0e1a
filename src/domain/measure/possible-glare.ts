import { homographyFromMm, project } from "./homography.ts";
import { aspectOf, lengthOf } from "./lines.ts";
import { boxesOf, opened } from "./mask.ts";
import type { Picture, Quad } from "./picture.ts";
import type { MeasureContext, Outline, Reading } from "./reading.ts";
import { median } from "./robust.ts";
import { sizeAsSeen } from "./size-as-seen.ts";

/**
 * Share of the picture, in percent, that looks like glare could: bright, plain and colourless. A patch counts when its
 * darkest channel, lowest over its neighbourhood, lies 0.08 (linear light) above that of the middle patch, its
 * saturation is below 0.25 and its texture contrast below half that of the middle patch.
 *
 * A hint where to look and nothing more: pale walls, sky and snow look the same, and one capture cannot tell. Sixteen
 * drawn pictures without glare read 0 to 2.5 %; real ones with bright plain subjects can read far more.
 * Source: common practice, no source.
 */
export function possibleGlare(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  const name = "glareAreaPercent";
  if (!outline) return [{ name, absent: "the print was not found in the frame" }];
  const area = outline.image ?? outline.sheet;
  const patches = patchesOf(picture, area);
  if (!patches) return [{ name, absent: "too little of the picture lies in the frame, or it is too small" }];
  const { columns, rows, texture, saturation } = patches;
  const floor = lowest(patches.darkest, columns, rows);
  const floorLimit = median(floor) + LEAST_RISE;
  const textureLimit = median(texture) / 2;
  const mask = Uint8Array.from(floor, (value, at) =>
    value > floorLimit && (saturation[at] as number) < MOST_SATURATION && (texture[at] as number) < textureLimit ? 1 : 0,
  );
  const suspect = opened(mask, columns, rows);
  return [
    {
      name,
      value: (100 * suspect.reduce((sum, value) => sum + value, 0)) / suspect.length,
      reliability: "weak",
      note: "Bright, plain areas: look whether they are glare or belong to the picture. Another capture of the print would tell.",
      detail: {
        of: "picture",
        places: boxesOf(suspect, columns, rows, sizeAsSeen(outline.sheet, outline.image, context).image).slice(0, MOST_PLACES),
      },
    },
  ];
}

/** Patches along the longer side of the picture; fewer where they would hold too few pixels. */
const MOST_ALONG = 96;
const FEWEST_ALONG = 24;
const SAMPLES_ALONG = 6;
const LEAST_RISE = 0.08;
const MOST_SATURATION = 0.25;
const MOST_PLACES = 12;
const SMALLEST_PATCH_PX = 3;

type Patches = {
  readonly columns: number;
  readonly rows: number;
  /** lowest of the mean R, G, B of each patch, linear */
  readonly darkest: Float32Array;
  readonly saturation: Float32Array;
  /** standard deviation of green over its mean */
  readonly texture: Float32Array;
};

function patchesOf(picture: Picture, area: Quad): Patches | null {
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
    }
  }
  return outside > 0.1 * columns * rows ? null : { columns, rows, darkest, saturation, texture };
}

type Corner = { readonly x: number; readonly y: number };

function readPatch({ codes, widthPx, heightPx, linearOf }: Picture, corner: Corner, right: Corner, below: Corner) {
  const [redOf, greenOf, blueOf] = linearOf;
  let [red, green, blue, greenSquares] = [0, 0, 0, 0];
  for (let j = 0; j < SAMPLES_ALONG; j++) {
    for (let i = 0; i < SAMPLES_ALONG; i++) {
      const s = (i + 0.5) / SAMPLES_ALONG;
      const t = (j + 0.5) / SAMPLES_ALONG;
      const x = Math.round(corner.x + (right.x - corner.x) * s + (below.x - corner.x) * t);
      const y = Math.round(corner.y + (right.y - corner.y) * s + (below.y - corner.y) * t);
      if (!(x >= 0 && y >= 0 && x < widthPx && y < heightPx)) return null;
      const at = (y * widthPx + x) * 3;
      const g = greenOf[codes[at + 1] as number] as number;
      red += redOf[codes[at] as number] as number;
      green += g;
      greenSquares += g * g;
      blue += blueOf[codes[at + 2] as number] as number;
    }
  }
  const count = SAMPLES_ALONG ** 2;
  const mean = green / count;
  const deviation = Math.sqrt(Math.max(0, greenSquares / count - mean * mean));
  return { red: red / count, green: mean, blue: blue / count, contrast: mean > 0 ? deviation / mean : 0 };
}

/** Lowest value among each patch and its eight neighbours. */
function lowest(values: Float32Array, columns: number, rows: number): Float32Array {
  return values.map((_, at) => {
    const y = Math.floor(at / columns);
    const x = at - y * columns;
    let least = Number.POSITIVE_INFINITY;
    for (let j = Math.max(0, y - 1); j <= Math.min(rows - 1, y + 1); j++) {
      for (let i = Math.max(0, x - 1); i <= Math.min(columns - 1, x + 1); i++) least = Math.min(least, values[j * columns + i] as number);
    }
    return least;
  });
}
