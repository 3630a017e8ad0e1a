import { GROUNDS, type GroundName } from "./grounds.ts";
import { defocus, vignette } from "./lens.ts";
import { type LightField, lamp, together } from "./lighting.ts";
import { blurOfFocus, rangeOver } from "./phone.ts";
import { focalLengthPx, pinhole } from "./projection.ts";
import { expose, type Placed } from "./scene.ts";
import { develop } from "./sensor.ts";
import type { Taken } from "./taken.ts";

export type CopyStandCapture = {
  readonly ppi: number;
  /** ground seen around the sheet */
  readonly marginMm: number;
  readonly ground: GroundName;
  readonly turnDegrees?: number;
  /** camera and baseboard not parallel */
  readonly tiltXDegrees?: number;
  readonly tiltYDegrees?: number;
  readonly fNumber: number;
  readonly focusErrorMm?: number;
  readonly sharpnessPx?: number;
  /** two lamps at 45 degrees unless something else is said */
  readonly light?: LightField;
  readonly mirrored?: LightField;
  readonly exposure: number;
  readonly noise: number;
  readonly sharpening?: number;
  readonly whiteBalance?: readonly [number, number, number];
  readonly bits: 8 | 16;
  readonly seed: number;
};

/** Real focal length of the lens on the stand, and its equivalent for a 36 × 24 mm frame. */
const FOCAL_LENGTH_MM = 60;
const FOCAL_LENGTH_35_MM = 90;

const TWO_LAMPS = together(lamp(-520, 0, 520), lamp(520, 0, 520));

/** A camera looking down from a column. Level and well lit it is the best of the four; tilted it is sharp on one side only. */
export function copyStandCapture(print: Placed, stand: CopyStandCapture): Taken {
  const pxPerMm = stand.ppi / 25.4;
  const widthPx = Math.round((print.drawing.sheetWidthMm + 2 * stand.marginMm) * pxPerMm);
  const heightPx = Math.round((print.drawing.sheetHeightMm + 2 * stand.marginMm) * pxPerMm);
  const focalPx = focalLengthPx({ widthPx, heightPx, focalLength35Mm: FOCAL_LENGTH_35_MM });
  const distanceMm = focalPx / pxPerMm;
  const projection = pinhole({
    widthPx,
    heightPx,
    focalLength35Mm: FOCAL_LENGTH_35_MM,
    distanceMm,
    tiltXDegrees: stand.tiltXDegrees ?? 0,
    tiltYDegrees: stand.tiltYDegrees ?? 0,
    turnDegrees: stand.turnDegrees ?? 0,
    offsetPx: [0, 0],
  });
  const exposed = expose({
    projection,
    placed: [print],
    ground: GROUNDS[stand.ground],
    light: stand.light ?? TWO_LAMPS,
    shadow: { xMm: 0, yMm: 0, reachMm: 0.5, depth: 0.3 },
    ...(stand.mirrored ? { mirrored: stand.mirrored } : {}),
  });
  const sigmaAt = blurOfFocus(
    projection,
    focalPx,
    distanceMm - (stand.focusErrorMm ?? 0),
    stand.sharpnessPx ?? 0.5,
    FOCAL_LENGTH_MM / stand.fNumber,
  );
  const seen = defocus(exposed.raster, sigmaAt, rangeOver(widthPx, heightPx, sigmaAt), 5);
  vignette(seen, 0.03);
  const codes = develop(seen, {
    exposure: stand.exposure,
    whiteBalance: stand.whiteBalance ?? [1, 1, 1],
    veil: 0.002,
    shotNoise: stand.noise,
    readNoise: stand.noise * 0.15,
    ...(stand.sharpening ? { sharpening: { amount: stand.sharpening, radiusPx: 1 } } : {}),
    bits: stand.bits,
    seed: stand.seed,
  });
  return { codes, exposed, projection, placed: [print], sigmaAt };
}
