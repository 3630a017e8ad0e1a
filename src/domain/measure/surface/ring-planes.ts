import { meanPxPerMm } from "../border/border.ts";
import { type Homography, homographyFromMm } from "../homography.ts";
import { toneMap } from "../laying/tone-map.ts";
import { lengthOf } from "../lines.ts";
import type { Picture } from "../picture.ts";
import { boxBlurred } from "../planes/box-blur.ts";
import type { GridPlane } from "../planes/grid-plane.ts";
import type { MeasureContext, Outline } from "../reading.ts";

/** The picture straightened, at two and a half px a mm, as two planes in which fringes may show. */
export type RingPlanes = {
  readonly pxPerMm: number;
  /** ln of the light in green */
  readonly light: GridPlane;
  /** ln of red over blue, less what goes with the light: rings are coloured, tones of one print mostly are not */
  readonly colour: GridPlane;
};

const PX_PER_MM = 2.5;
const MOST_SIDE_PX = 500;
const SAMPLES = 3;
const MOST_TONES = 3000;

type Channels = readonly [Float32Array, Float32Array, Float32Array];

/** Null where the frame cuts the picture off, or it is too small. */
export function ringPlanes(picture: Picture, outline: Outline, context: MeasureContext): RingPlanes | null {
  const quad = outline.image ?? outline.sheet;
  const framePxPerMm = meanPxPerMm(outline, context);
  const widthMm = (lengthOf(quad, "top") + lengthOf(quad, "bottom")) / 2 / framePxPerMm;
  const heightMm = (lengthOf(quad, "left") + lengthOf(quad, "right")) / 2 / framePxPerMm;
  const pxPerMm = Math.min(PX_PER_MM, framePxPerMm, MOST_SIDE_PX / Math.max(widthMm, heightMm));
  const [width, height] = [Math.round(widthMm * pxPerMm), Math.round(heightMm * pxPerMm)];
  if (!(Math.min(width, height) >= 24)) return null;
  const sums = sumsOfCells(picture, homographyFromMm(width, height, quad), width, height);
  if (!sums) return null;
  const [red, green, blue] = sums;
  const light = logsOf(green);
  return {
    pxPerMm,
    light: { width, height, data: light },
    colour: { width, height, data: withoutTone(logRatios(red, blue), light) },
  };
}

/** Of red, green and blue the sum of the samples of each cell; null where one lies outside the frame. */
function sumsOfCells(picture: Picture, map: Homography, width: number, height: number): Channels | null {
  const red = new Float32Array(width * height);
  const green = new Float32Array(width * height);
  const blue = new Float32Array(width * height);
  const { codes, linearOf, widthPx, heightPx } = picture;
  const [redOf, greenOf, blueOf] = linearOf;
  for (let row = 0, cell = 0; row < height; row++) {
    for (let column = 0; column < width; column++, cell++) {
      let r = 0;
      let g = 0;
      let b = 0;
      for (let j = 0; j < SAMPLES; j++) {
        const v = row + (j + 0.5) / SAMPLES;
        for (let i = 0; i < SAMPLES; i++) {
          const u = column + (i + 0.5) / SAMPLES;
          const scale = 1 / (map[6] * u + map[7] * v + 1);
          const x = Math.floor((map[0] * u + map[1] * v + map[2]) * scale + 0.5);
          const y = Math.floor((map[3] * u + map[4] * v + map[5]) * scale + 0.5);
          if (x < 0 || y < 0 || x >= widthPx || y >= heightPx) return null;
          const at = 3 * ((y | 0) * widthPx + (x | 0));
          r += redOf[codes[at] as number] as number;
          g += greenOf[codes[at + 1] as number] as number;
          b += blueOf[codes[at + 2] as number] as number;
        }
      }
      red[cell] = r;
      green[cell] = g;
      blue[cell] = b;
    }
  }
  return [red, green, blue];
}

/** Added to all light, so that noise of the deepest shadows is no contrast. */
const DARKEST = 0.004;

function logsOf(sums: Float32Array): Float32Array {
  const logs = new Float32Array(sums.length);
  for (let cell = 0; cell < logs.length; cell++) logs[cell] = logOf(sums[cell] as number);
  return logs;
}

function logRatios(red: Float32Array, blue: Float32Array): Float32Array {
  const ratios = new Float32Array(red.length);
  for (let cell = 0; cell < ratios.length; cell++) ratios[cell] = logOf(red[cell] as number) - logOf(blue[cell] as number);
  return ratios;
}

const logOf = (sum: number) => Math.log(DARKEST + sum / SAMPLES ** 2);

/** A toned or faded print has a colour for each tone: its median at each tone is taken away. */
function withoutTone(ratio: Float32Array, light: Float32Array): Float32Array {
  const stride = Math.max(1, Math.floor(ratio.length / MOST_TONES));
  const tones = everyNth(light, stride);
  const colours = everyNth(ratio, stride);
  // the map only rises, so a colour that falls with the tone is mapped upside down
  const sign = covariance(tones, colours) < 0 ? -1 : 1;
  const shift = 8;
  const map = toneMap(shifted(tones, 1, shift), shifted(colours, sign, shift));
  const rest = new Float32Array(ratio.length);
  for (let cell = 0; cell < rest.length; cell++)
    rest[cell] = (ratio[cell] as number) - sign * (map((light[cell] as number) + shift) - shift);
  return rest;
}

function shifted(values: Float32Array, sign: 1 | -1, shift: number): Float32Array {
  const moved = new Float32Array(values.length);
  for (let k = 0; k < moved.length; k++) moved[k] = sign * (values[k] as number) + shift;
  return moved;
}

function everyNth(values: Float32Array, stride: number): Float32Array {
  const some = new Float32Array(Math.floor(values.length / stride));
  for (let k = 0; k < some.length; k++) some[k] = values[k * stride] as number;
  return some;
}

function covariance(a: Float32Array, b: Float32Array): number {
  const meanA = meanOf(a);
  const meanB = meanOf(b);
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += ((a[k] as number) - meanA) * ((b[k] as number) - meanB);
  return sum;
}

function meanOf(values: Float32Array): number {
  let sum = 0;
  for (let k = 0; k < values.length; k++) sum += values[k] as number;
  return sum / values.length;
}

/** Share of a plane whose own detail between half a mm and 3 mm is fainter than rings would be. */
export function plainShare(plane: GridPlane, pxPerMm: number, faintest: number): number {
  const fine = boxBlurred(plane, 0.15 * pxPerMm).data;
  const broad = boxBlurred(plane, 1.2 * pxPerMm).data;
  for (let at = 0; at < fine.length; at++) fine[at] = ((fine[at] as number) - (broad[at] as number)) ** 2;
  const local = boxBlurred({ ...plane, data: fine }, 1.5 * pxPerMm).data;
  let plain = 0;
  for (let at = 0; at < local.length; at++) if ((local[at] as number) < faintest ** 2) plain++;
  return plain / local.length;
}
