import type { Camera } from "../plan/arrangement.ts";
import { magnificationAt, magnificationOfPpi } from "../plan/sampling.ts";

/** The lens as it stood over a print, as far as figures tell. */
export type StandingLens = {
  readonly focalLengthMm: number;
  readonly magnification: number;
  /** exit pupil / entrance pupil */
  readonly pupilMagnification: number;
};

type Known = {
  /** figures kept with the capture's set-up; null without them */
  readonly camera: Camera | null;
  /** as the file says; a zoom stood where it says, whatever the set-up's figures are */
  readonly focalLengthMm: number | null;
  /** of the whole original, upright */
  readonly widthPx: number;
  readonly heightPx: number;
  /** as measured; null where it was not */
  readonly samplingPpi: number | null;
};

/**
 * How large the print was drawn: by the measured sampling and the sensor's pixels, or by the distance that the set-up's figures say;
 * null where neither is known. A file whose pixels are not the sensor's was made smaller or comes from another camera.
 */
export function lensOfCapture({ camera, focalLengthMm, widthPx, heightPx, samplingPpi }: Known): StandingLens | null {
  if (camera === null) return null;
  const focal = focalLengthMm ?? camera.focalLengthMm;
  const isWhole = samplingPpi !== null && isAsLarge(camera, Math.max(widthPx, heightPx), Math.min(widthPx, heightPx));
  const magnification = isWhole
    ? magnificationOfPpi(samplingPpi, camera.sensor)
    : camera.lensDistanceMm === null
      ? null
      : magnificationAt(focal, camera.lensDistanceMm);
  return magnification === null ? null : { focalLengthMm: focal, magnification, pupilMagnification: camera.pupilMagnification };
}

/** Programs that develop raw files keep a few rows more or less than others (own figure). */
const LIKE = 0.02;

function isAsLarge({ sensor }: Camera, longPx: number, shortPx: number): boolean {
  const [long, short] = [Math.max(sensor.widthPx, sensor.heightPx), Math.min(sensor.widthPx, sensor.heightPx)];
  return Math.abs(longPx / long - 1) <= LIKE && Math.abs(shortPx / short - 1) <= LIKE;
}
