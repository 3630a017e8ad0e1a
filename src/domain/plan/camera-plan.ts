import {
  type ApertureResponse,
  type ApertureWindow,
  airyDiscMm,
  apertureResponses,
  apertureWindow,
  depthOfFieldMm,
  effectiveFNumber,
} from "./aperture.ts";
import type { Arrangement, Camera } from "./arrangement.ts";
import type { Asked } from "./asked.ts";
import { closeUpLossStops, exposureSeconds, exposureValueOfLux, restSeconds } from "./exposure.ts";
import type { Job, SizeClass } from "./job.ts";
import {
  edgeSlopeDegrees,
  glareClearanceMm,
  halfTowardsLamps,
  type Lamps,
  type LightFallOff,
  lightFallOff,
  steepestClearElevation,
} from "./lighting.ts";
import {
  type Extent,
  lensDistanceMm,
  magnificationAt,
  magnificationOfPpi,
  magnificationToFit,
  samplingPpi,
  sensorDistanceMm,
  withMargin,
} from "./sampling.ts";

export type CameraPlan = {
  readonly magnification: number;
  /** where the lens stands; where print and margin do not fit, at the distance at which they do */
  readonly ppi: number;
  /** what has to be seen: the print and its margin */
  readonly needed: Extent;
  /** what is seen */
  readonly seen: Extent;
  readonly fits: boolean;
  readonly lensMm: number;
  readonly sensorMm: number;
  /** the farthest the lens may stand with the aimed sampling still reached; null where it cannot be reached at all */
  readonly farthestLensMm: number | null;
  readonly aperture: AperturePlan;
  readonly exposure: ExposurePlan | null;
  readonly lighting: LightingPlan | null;
};

export type AperturePlan = {
  /** curl of the print and bend of the plane of focus together */
  readonly depthMm: number;
  /** what the aperture used gives: within it a point spreads to no more than two samples of the aimed sampling; null without one */
  readonly depthOfFieldMm: number | null;
  /** where the aim wants half the contrast */
  readonly atCyPerMm: number;
  readonly responses: readonly ApertureResponse[];
  /** null where no aperture leaves any contrast */
  readonly window: ApertureWindow | null;
  /** the one said in the arrangement, or the one proposed; null where nobody said one and none leaves any contrast */
  readonly used: ApertureResponse | null;
  readonly effectiveFNumber: number | null;
  /** across the spot that a point becomes by diffraction alone, on the sensor and on the print */
  readonly diffractionSpot: { readonly sensorMm: number; readonly printMm: number } | null;
};

export type ExposurePlan = {
  readonly ev100: number;
  readonly seconds: number;
  readonly lossStops: number;
  readonly restSeconds: 0 | 2 | 5;
};

export type LightingPlan = {
  readonly lamps: Lamps;
  readonly halfAcrossMm: number;
  readonly slopeDegrees: number;
  readonly clearanceMm: number;
  readonly steepestClearDegrees: number | null;
  readonly lossPercent: LightFallOff;
};

/** How one size of print is captured with a camera looking straight down. */
export function planCamera(camera: Camera, { light }: Arrangement, size: SizeClass, job: Job): CameraPlan {
  const needed = withMargin(size, job.marginMm);
  const toFit = magnificationToFit(needed, camera.sensor);
  const magnification = (camera.lensDistanceMm === null ? null : magnificationAt(camera.focalLengthMm, camera.lensDistanceMm)) ?? toFit;
  const lensMm = lensDistanceMm(camera.focalLengthMm, magnification);
  const farthest = magnificationOfPpi(job.asked.aimedPpi, camera.sensor);
  const fits = magnification <= toFit * (1 + 1e-9);
  const aperture = planAperture(camera, magnification, job.curlMm + camera.fieldCurvatureMm, job.asked);
  return {
    magnification,
    ppi: samplingPpi(fits ? magnification : toFit, camera.sensor),
    needed,
    seen: { widthMm: camera.sensor.widthMm / magnification, heightMm: camera.sensor.heightMm / magnification },
    fits,
    lensMm,
    sensorMm: sensorDistanceMm(camera.focalLengthMm, magnification),
    farthestLensMm: farthest <= toFit ? lensDistanceMm(camera.focalLengthMm, farthest) : null,
    aperture,
    exposure: planExposure(camera, magnification, aperture.effectiveFNumber, light),
    lighting: light.lamps === null ? null : planLighting(light.lamps, size, job.curlMm, lensMm),
  };
}

function planAperture(camera: Camera, magnification: number, depthMm: number, asked: Asked): AperturePlan {
  const { atCyPerMm } = asked.detail;
  const ppi = samplingPpi(magnification, camera.sensor);
  const optics = { magnification, pupilMagnification: camera.pupilMagnification };
  const responses = apertureResponses(optics, depthMm, ppi, atCyPerMm);
  const window = apertureWindow(responses);
  const [said] = camera.fNumber === null ? [] : apertureResponses(optics, depthMm, ppi, atCyPerMm, [camera.fNumber]);
  const used = said ?? window?.proposed ?? null;
  const effective = used && effectiveFNumber({ ...optics, fNumber: used.fNumber });
  const circleMm = (2 * magnification * 25.4) / asked.aimedPpi;
  const depthOfField = used && depthOfFieldMm({ ...optics, fNumber: used.fNumber }, circleMm);
  const spotMm = used && airyDiscMm({ ...optics, fNumber: used.fNumber });
  const diffractionSpot = spotMm === null ? null : { sensorMm: spotMm, printMm: spotMm / magnification };
  return { depthMm, depthOfFieldMm: depthOfField, atCyPerMm, responses, window, used, effectiveFNumber: effective, diffractionSpot };
}

function planExposure(camera: Camera, magnification: number, effective: number | null, light: Arrangement["light"]): ExposurePlan | null {
  const ev100 = light.ev100 ?? (light.lux === null ? null : exposureValueOfLux(light.lux));
  if (ev100 === null || effective === null) return null;
  const seconds = exposureSeconds(ev100, light.sensitivityIso, effective);
  return { ev100, seconds, lossStops: closeUpLossStops(magnification, camera.pupilMagnification), restSeconds: restSeconds(seconds) };
}

/** The slope is that of a print bowed across its shorter side, which is the steeper case. */
function planLighting(lamps: Lamps, size: Extent, curlMm: number, lensMm: number): LightingPlan {
  const halfAcrossMm = halfTowardsLamps({ widthMm: size.heightMm, heightMm: size.widthMm }, lamps.count);
  const slopeDegrees = edgeSlopeDegrees(curlMm, size.widthMm);
  return {
    lamps,
    halfAcrossMm,
    slopeDegrees,
    clearanceMm: glareClearanceMm(lamps, halfAcrossMm, lensMm, slopeDegrees),
    steepestClearDegrees: steepestClearElevation(lamps, halfAcrossMm, lensMm, slopeDegrees),
    lossPercent: lightFallOff(lamps, { widthMm: size.heightMm, heightMm: size.widthMm }, lensMm),
  };
}
