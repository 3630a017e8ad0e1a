import type { Thumbnail } from "../../capture/file-claims.ts";
import { lightnessOf } from "../colour/lab.ts";
import { SRGB_LINEAR_8 } from "../colour/srgb.ts";
import { luminanceAt, type Picture } from "../picture.ts";
import { type GridPlane, resized, turnedBy } from "../planes/grid-plane.ts";

/**
 * What the small picture that a device puts beside the large one betrays of it: programs that turn, crop or lighten a
 * picture often leave it as it was. Both are compared in L* on a grid of 32 × 32 by their correlation; for a crop the
 * picture is looked for in windows of the thumbnail. Dark bars, with which devices fill a thumbnail of another shape, are cut off
 * first. Says nothing where either is too plain, or where they agree neither well nor badly.
 *
 * @returns at most one sentence for the keeper
 * Source: thumbnails: CIPA DC-008 (EXIF), 4.5.8 (from memory); the comparison is own.
 */
export function thumbnailSigns(picture: Picture, thumbnail: Thumbnail): string[] {
  const large = planeOfPicture(picture);
  const small = planeOfThumbnail(thumbnail);
  if (spreadOf(large.data) < LEAST_SPREAD || spreadOf(small.data) < LEAST_SPREAD) return [];
  const shape = large.width / large.height;
  const upright = withoutBars(small, shape);
  // where a thumbnail of another shape has no bars, the device left out the rims of the picture
  const framed = cutTo(large, upright.width / upright.height);
  const turnedAlike = [1, 2, 3].map((quarters) =>
    correlation(square(turnedBy(large, quarters)), square(withoutBars(small, quarters % 2 === 0 ? shape : 1 / shape))),
  ) as [number, number, number];
  const alike = [
    Math.max(correlation(square(framed), square(upright)), correlation(square(large), square(upright))),
    ...turnedAlike,
  ] as const;
  const turned = alike.indexOf(Math.max(...alike));
  const isFarBetter = (other: number) => other > SAME && 1 - other < FAR_LESS_UNLIKE * (1 - alike[0]);
  if (turned !== 0 && isFarBetter(alike[turned] as number))
    return [`Its thumbnail shows the picture ${TURNS[turned - 1]}: a program turned it afterwards.`];
  const window = bestWindow(large, upright);
  if (window.share < MOST_OF_A_CROP && isFarBetter(window.alike))
    return [`Its thumbnail shows more than the file does, which holds about ${Math.round(100 * window.share)} % of it: it was cropped.`];
  if (alike[0] > SAME) return toneSign(framed, upright);
  return Math.max(...alike) < DIFFERENT && window.alike < SAME
    ? ["Its thumbnail shows another picture: a program changed the picture afterwards."]
    : [];
}

const SIDE = 32;
/** L*; a plainer picture has nothing to compare. */
const LEAST_SPREAD = 4;
const SAME = 0.9;
const DIFFERENT = 0.4;
/** Frames with a print in the middle are much alike whichever way they lie: what counts is how much unlikeness goes. */
const FAR_LESS_UNLIKE = 0.3;
/** Area; devices themselves leave out a narrow rim. */
const MOST_OF_A_CROP = 0.9;
const TURNS = ["a quarter turn further clockwise", "upside down", "a quarter turn further anticlockwise"] as const;
/** L* at any of five quantiles; the thumbnail's own compression and sharpening move them by less than half of it. */
const OTHER_TONE = 6;
const QUANTILES = [0.05, 0.25, 0.5, 0.75, 0.95] as const;
const LONG_SIDE = 96;
const SAMPLES = 4;

function toneSign(large: GridPlane, small: GridPlane): string[] {
  const [one, other] = [large, small].map((plane) => Float32Array.from(square(plane).data).sort()) as [Float32Array, Float32Array];
  const changes = QUANTILES.map((share) => at(one, share) - at(other, share));
  const most = changes.reduce((found, change) => (Math.abs(change) > Math.abs(found) ? change : found), 0);
  if (Math.abs(most) < OTHER_TONE) return [];
  return [
    `Its thumbnail is ${most > 0 ? "darker" : "lighter"} by up to ${Math.abs(most).toFixed(0)} L*: its tones were changed afterwards.`,
  ];
}

const at = (sorted: Float32Array, share: number) => sorted[Math.round(share * (sorted.length - 1))] as number;

/** The window of the thumbnail, of the picture's own shape, that is most like the picture. */
function bestWindow(large: GridPlane, small: GridPlane): { readonly share: number; readonly alike: number } {
  const shape = large.width / large.height;
  let best = { share: 1, alike: -1 };
  for (let scale = 1; scale >= SMALLEST_WINDOW; scale -= WINDOW_STEP) {
    const width = Math.round(scale * Math.min(small.width, small.height * shape));
    const height = Math.round(width / shape);
    if (width < LEAST_WINDOW_PX || height < LEAST_WINDOW_PX || height > small.height) continue;
    const sought = resized(large, width, height);
    for (let top = 0; top <= small.height - height; top++)
      for (let left = 0; left <= small.width - width; left++) {
        const alike = correlation(sought, small, left, top);
        if (alike > best.alike) best = { share: (width * height) / (small.width * small.height), alike };
      }
  }
  return best;
}

const SMALLEST_WINDOW = 0.4;
const WINDOW_STEP = 0.04;
const LEAST_WINDOW_PX = 10;

/** Correlation of a plane with the part of another that it covers from (left, top) on. */
function correlation(one: GridPlane, other: GridPlane, left = 0, top = 0): number {
  let a = 0;
  let b = 0;
  let aa = 0;
  let bb = 0;
  let ab = 0;
  for (let y = 0; y < one.height; y++)
    for (let x = 0; x < one.width; x++) {
      const [p, q] = [one.data[y * one.width + x] as number, other.data[(y + top) * other.width + x + left] as number];
      a += p;
      b += q;
      aa += p * p;
      bb += q * q;
      ab += p * q;
    }
  const n = one.width * one.height;
  return (ab - (a * b) / n) / Math.sqrt(Math.max(1e-9, (aa - (a * a) / n) * (bb - (b * b) / n)));
}

/** The thumbnail without the dark bars that fill it up from this shape (width / height) to its own; itself where there are none. */
function withoutBars(plane: GridPlane, shape: number): GridPlane {
  const { across, down, left, top } = middleOf(plane, shape);
  const isBar = (at: number) => {
    const [x, y] = [(at % plane.width) - left, Math.floor(at / plane.width) - top];
    return x < 0 || y < 0 || x >= across || y >= down;
  };
  return plane.data.some((value, at) => isBar(at) && value > MOST_OF_A_BAR) ? plane : cutTo(plane, shape);
}

/** The middle of a plane, of another shape (width / height). */
function cutTo(plane: GridPlane, shape: number): GridPlane {
  const { across, down, left, top } = middleOf(plane, shape);
  const data = new Float32Array(across * down).map(
    (_, at) => plane.data[(top + Math.floor(at / across)) * plane.width + left + (at % across)] as number,
  );
  return { width: across, height: down, data };
}

function middleOf({ width, height }: GridPlane, shape: number) {
  const [across, down] = width / height > shape ? [Math.round(height * shape), height] : [width, Math.round(width / shape)];
  return { across, down, left: Math.floor((width - across) / 2), top: Math.floor((height - down) / 2) };
}

/** L* */
const MOST_OF_A_BAR = 8;

const square = (plane: GridPlane) => resized(plane, SIDE, SIDE);

function planeOfPicture(picture: Picture): GridPlane {
  const scale = Math.min(1, LONG_SIDE / Math.max(picture.widthPx, picture.heightPx));
  const [width, height] = [Math.max(1, Math.round(picture.widthPx * scale)), Math.max(1, Math.round(picture.heightPx * scale))];
  const pixel = (place: number, cells: number, pixels: number) => Math.min(pixels - 1, Math.floor((place * pixels) / cells));
  const data = new Float32Array(width * height).map((_, cell) => {
    let sum = 0;
    for (let k = 0; k < SAMPLES * SAMPLES; k++) {
      const x = pixel((cell % width) + ((k % SAMPLES) + 0.5) / SAMPLES, width, picture.widthPx);
      const y = pixel(Math.floor(cell / width) + (Math.floor(k / SAMPLES) + 0.5) / SAMPLES, height, picture.heightPx);
      sum += luminanceAt(picture, x, y);
    }
    return lightnessOf(sum / SAMPLES ** 2);
  });
  return { width, height, data };
}

function planeOfThumbnail({ widthPx, heightPx, rgb }: Thumbnail): GridPlane {
  const light = (at: number) => SRGB_LINEAR_8[rgb[at] as number] as number;
  const data = new Float32Array(widthPx * heightPx).map((_, pixel) =>
    lightnessOf(0.2126 * light(3 * pixel) + 0.7152 * light(3 * pixel + 1) + 0.0722 * light(3 * pixel + 2)),
  );
  const scale = Math.min(1, THUMBNAIL_SIDE / Math.max(widthPx, heightPx));
  return resized({ width: widthPx, height: heightPx, data }, Math.round(widthPx * scale) || 1, Math.round(heightPx * scale) || 1);
}

/** Windows are moved over it px by px. */
const THUMBNAIL_SIDE = 48;

function spreadOf(values: Float32Array): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
}
