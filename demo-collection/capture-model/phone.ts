import type { Triple } from "../raster.ts";
import { GROUNDS, type GroundName } from "./grounds.ts";
import { defocus, vignette } from "./lens.ts";
import type { LightField } from "./lighting.ts";
import { focalLengthPx, type Pose, pinhole } from "./projection.ts";
import { expose, type Placed } from "./scene.ts";
import { develop } from "./sensor.ts";
import type { Taken } from "./taken.ts";

export type PhoneCapture = {
  readonly widthPx: number;
  readonly heightPx: number;
  /** part of the frame's width that the sheet's width fills */
  readonly fill: number;
  readonly focalLength35Mm?: number;
  readonly tiltXDegrees?: number;
  readonly tiltYDegrees?: number;
  readonly turnDegrees?: number;
  readonly offsetPx?: readonly [number, number];
  readonly ground: GroundName;
  readonly light: LightField;
  readonly mirrored?: LightField;
  /** blur of lens and pixel in focus, px */
  readonly sharpnessPx?: number;
  /** the lens focused this much nearer than the print, mm */
  readonly focusErrorMm?: number;
  readonly exposure: number;
  readonly whiteBalance?: Triple;
  readonly noise?: number;
  readonly contrast?: number;
  readonly sharpening?: number;
  readonly vignetting?: number;
  readonly veil?: number;
  readonly seed: number;
};

/** Width of the pupil in mm: a small bright lens, so that depth of field is short at arm's length. */
const PUPIL_MM = 2.6;

/** A hand-held phone: leaning, near, lit by what the room has, sharpened and bent by its own software. */
export function phoneCapture(print: Placed, phone: PhoneCapture): Taken {
  const focalLength35Mm = phone.focalLength35Mm ?? 27;
  const focalPx = focalLengthPx({ ...phone, focalLength35Mm });
  const distanceMm = (focalPx * print.drawing.sheetWidthMm) / (phone.fill * phone.widthPx);
  const pose: Pose = {
    widthPx: phone.widthPx,
    heightPx: phone.heightPx,
    focalLength35Mm,
    distanceMm,
    tiltXDegrees: phone.tiltXDegrees ?? 0,
    tiltYDegrees: phone.tiltYDegrees ?? 0,
    turnDegrees: phone.turnDegrees ?? 0,
    offsetPx: phone.offsetPx ?? [0, 0],
  };
  const projection = pinhole(pose);
  const scene = {
    projection,
    placed: [print],
    ground: GROUNDS[phone.ground],
    light: phone.light,
    shadow: { xMm: 0.5, yMm: 0.7, reachMm: 1.6, depth: 0.45 },
    ...(phone.mirrored ? { mirrored: phone.mirrored } : {}),
  };
  const exposed = expose(scene);
  const sigmaAt = blurOfFocus(projection, focalPx, distanceMm - (phone.focusErrorMm ?? 0), phone.sharpnessPx ?? 0.75);
  const range = rangeOver(phone.widthPx, phone.heightPx, sigmaAt);
  const seen = defocus(exposed.raster, sigmaAt, range);
  vignette(seen, phone.vignetting ?? 0.22);
  const noise = phone.noise ?? 0.006;
  const codes = develop(seen, {
    exposure: phone.exposure,
    whiteBalance: phone.whiteBalance ?? [1, 1, 1],
    veil: phone.veil ?? 0.004,
    shotNoise: noise,
    readNoise: noise * 0.2,
    contrast: phone.contrast ?? 0.12,
    crush: 0.01,
    sharpening: { amount: phone.sharpening ?? 0.55, radiusPx: 1.3 },
    bits: 8,
    seed: phone.seed,
  });
  return { codes, exposed, projection, placed: [print], sigmaAt };
}

/** Circle of confusion c = f A |d - d0| / (d d0) with f in px, taken as a Gaussian of a quarter of it. */
export function blurOfFocus(
  projection: { toPlane: readonly number[]; toPixels: readonly number[] },
  focalPx: number,
  focusMm: number,
  sharpestPx: number,
  pupilMm = PUPIL_MM,
): (x: number, y: number) => number {
  const [, , , , , , g, h, i] = projection.toPixels as [number, number, number, number, number, number, number, number, number];
  const m = projection.toPlane as [number, number, number, number, number, number, number, number, number];
  return (x, y) => {
    const w = m[6] * x + m[7] * y + m[8];
    const depthMm = (g * (m[0] * x + m[1] * y + m[2])) / w + (h * (m[3] * x + m[4] * y + m[5])) / w + i;
    const circlePx = (focalPx * pupilMm * Math.abs(depthMm - focusMm)) / (depthMm * focusMm);
    return Math.min(9, Math.hypot(sharpestPx, circlePx / 4));
  };
}

export function rangeOver(widthPx: number, heightPx: number, sigmaAt: (x: number, y: number) => number): [number, number] {
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  for (let j = 0; j <= 24; j++) {
    for (let i = 0; i <= 24; i++) {
      const sigma = sigmaAt((i / 24) * (widthPx - 1), (j / 24) * (heightPx - 1));
      least = Math.min(least, sigma);
      most = Math.max(most, sigma);
    }
  }
  return [least, most];
}
