import { meanPxPerMm } from "./border.ts";
import { boxBlurred } from "./box-blur.ts";
import type { GridPlane } from "./grid-plane.ts";
import { homographyFromMm } from "./homography.ts";
import { lengthOf } from "./lines.ts";
import type { Picture } from "./picture.ts";
import type { MeasureContext, Outline } from "./reading.ts";
import { toneMap } from "./tone-map.ts";

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

/** Null where the frame cuts the picture off, or it is too small. */
export function ringPlanes(picture: Picture, outline: Outline, context: MeasureContext): RingPlanes | null {
  const quad = outline.image ?? outline.sheet;
  const framePxPerMm = meanPxPerMm(outline, context);
  const widthMm = (lengthOf(quad, "top") + lengthOf(quad, "bottom")) / 2 / framePxPerMm;
  const heightMm = (lengthOf(quad, "left") + lengthOf(quad, "right")) / 2 / framePxPerMm;
  const pxPerMm = Math.min(PX_PER_MM, framePxPerMm, MOST_SIDE_PX / Math.max(widthMm, heightMm));
  const [width, height] = [Math.round(widthMm * pxPerMm), Math.round(heightMm * pxPerMm)];
  if (!(Math.min(width, height) >= 24)) return null;
  const map = homographyFromMm(width, height, quad);
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
  const light = new Float32Array(green.length);
  const ratio = new Float32Array(green.length);
  for (let cell = 0; cell < light.length; cell++) {
    light[cell] = Math.log(DARKEST + (green[cell] as number) / SAMPLES ** 2);
    ratio[cell] = Math.log(DARKEST + (red[cell] as number) / SAMPLES ** 2) - Math.log(DARKEST + (blue[cell] as number) / SAMPLES ** 2);
  }
  return {
    pxPerMm,
    light: { width, height, data: light },
    colour: { width, height, data: withoutTone(ratio, light) },
  };
}

/** Added to all light, so that noise of the deepest shadows is no contrast. */
const DARKEST = 0.004;

/** A toned or faded print has a colour for each tone: its median at each tone is taken away. */
function withoutTone(ratio: Float32Array, light: Float32Array): Float32Array {
  const stride = Math.max(1, Math.floor(ratio.length / MOST_TONES));
  const some = (values: Float32Array) =>
    Float32Array.from({ length: Math.floor(values.length / stride) }, (_, k) => values[k * stride] as number);
  const [tones, colours] = [some(light), some(ratio)];
  // the map only rises, so a colour that falls with the tone is mapped upside down
  const sign = covariance(tones, colours) < 0 ? -1 : 1;
  const shift = 8;
  const map = toneMap(
    tones.map((value) => value + shift),
    colours.map((value) => sign * value + shift),
  );
  return ratio.map((value, cell) => value - sign * (map((light[cell] as number) + shift) - shift));
}

function covariance(a: Float32Array, b: Float32Array): number {
  const mean = (values: Float32Array) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [meanA, meanB] = [mean(a), mean(b)];
  return a.reduce((sum, value, k) => sum + (value - meanA) * ((b[k] as number) - meanB), 0);
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
