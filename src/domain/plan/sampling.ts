import { MM_PER_INCH } from "../mm-per-inch.ts";

/** Where a camera looks straight down on a flat print: everything follows from how large the print is drawn on the sensor. */
export type Sensor = { readonly widthMm: number; readonly heightMm: number; readonly widthPx: number; readonly heightPx: number };
export type Extent = { readonly widthMm: number; readonly heightMm: number };

/** Distance between the middles of two pixels, in mm; of the two directions the coarser one. */
const pitchMm = (sensor: Sensor): number => Math.max(sensor.widthMm / sensor.widthPx, sensor.heightMm / sensor.heightPx);

/**
 * The largest magnification (size on the sensor / size of the thing) at which a field fits on the sensor, with the field's
 * longer side along the sensor's longer side.
 */
export function magnificationToFit(field: Extent, sensor: Sensor): number {
  const [long, short] = inOrder(field);
  const [sensorLong, sensorShort] = inOrder(sensor);
  return Math.min(sensorLong / long, sensorShort / short);
}

/** A print with as much of the ground round it on every side. */
export const withMargin = (print: Extent, marginMm: number): Extent => ({
  widthMm: print.widthMm + 2 * marginMm,
  heightMm: print.heightMm + 2 * marginMm,
});

/** Pixels per inch of the print: 25.4 m / pitch (definition). */
export const samplingPpi = (magnification: number, sensor: Sensor): number => (MM_PER_INCH * magnification) / pitchMm(sensor);

/** The magnification that a sampling asks for. */
export const magnificationOfPpi = (ppi: number, sensor: Sensor): number => (ppi * pitchMm(sensor)) / MM_PER_INCH;

/** Pixels that so many millimetres need. */
export const pixelsAcross = (lengthMm: number, ppi: number): number => Math.ceil((lengthMm / MM_PER_INCH) * ppi);

/** Half the sampling in cycles per mm of the print: nothing finer can be told from what is not there (ISO 12233). */
export const halfSamplingCyPerMm = (ppi: number): number => ppi / MM_PER_INCH / 2;

/**
 * Distance in mm from the print to the lens (its front principal point, about the middle of most lenses): f (1 + 1/m).
 * The thin lens; a lens that shortens its focal length when it focuses close stands nearer than this.
 */
export const lensDistanceMm = (focalLengthMm: number, magnification: number): number => focalLengthMm * (1 + 1 / magnification);

/**
 * From the print to the entrance pupil, which is where perspective is seen from: f (1/m + 1/P). It stands f (1 − 1/P) before the
 * front principal point, as the thin lens gives for a pupil that it draws P times as large.
 */
export const pupilDistanceMm = (focalLengthMm: number, magnification: number, pupilMagnification: number): number =>
  focalLengthMm * (1 / magnification + 1 / pupilMagnification);

/** The same as for the lens, from print to sensor: f (2 + m + 1/m), for a lens whose principal points fall together. */
export const sensorDistanceMm = (focalLengthMm: number, magnification: number): number =>
  focalLengthMm * (2 + magnification + 1 / magnification);

/** The magnification at a distance from print to lens; null nearer than the focal length, where no picture forms. */
export const magnificationAt = (focalLengthMm: number, lensMm: number): number | null =>
  lensMm > focalLengthMm ? focalLengthMm / (lensMm - focalLengthMm) : null;

const inOrder = ({ widthMm, heightMm }: Extent): [long: number, short: number] => [
  Math.max(widthMm, heightMm),
  Math.min(widthMm, heightMm),
];
