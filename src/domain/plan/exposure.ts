/**
 * Exposure by the additive system (APEX) and the calibration constants of ISO 2720: E = 2^EV · C / S with C = 250 lx s for a flat
 * receptor. The aperture that counts is the effective one, as the light is spread over a larger picture close up.
 */
const FLAT_RECEPTOR = 250;

/** Exposure value at ISO 100 that a meter with a flat receptor gives in so many lux. */
export const exposureValueOfLux = (lux: number): number => Math.log2((lux * 100) / FLAT_RECEPTOR);

/** The time in seconds for an incident reading at ISO 100. */
export const exposureSeconds = (ev100: number, sensitivityIso: number, effectiveFNumber: number): number =>
  effectiveFNumber ** 2 / (2 ** ev100 * (sensitivityIso / 100));

/** Stops of light that drawing large takes away: 2 log2(1 + m / P). */
export const closeUpLossStops = (magnification: number, pupilMagnification: number): number =>
  2 * Math.log2(1 + magnification / pupilMagnification);

/**
 * How long to wait between the touch and the exposure so that a stand has come to rest. Common practice, no source: not needed
 * where the exposure is too short for a tremor of some ten hertz to move anything, two seconds otherwise, and five for exposures
 * of a second and more, with a cable or remote release in either case.
 */
export const restSeconds = (exposureSecondsLong: number): 0 | 2 | 5 =>
  exposureSecondsLong < 1 / 250 ? 0 : exposureSecondsLong < 1 ? 2 : 5;
