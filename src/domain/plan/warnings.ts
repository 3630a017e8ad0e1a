import { lightnessOf } from "../measure/colour/lab.ts";
import { apertureResponses, apertureWindow, HALF_CONTRAST } from "./aperture.ts";
import type { Arrangement, Camera } from "./arrangement.ts";
import type { Asked } from "./asked.ts";
import type { AperturePlan, CameraPlan, ExposurePlan, LightingPlan } from "./camera-plan.ts";
import { GLASSES, glassReflection } from "./glass.ts";
import type { Job } from "./job.ts";
import { glareClearanceMm } from "./lighting.ts";
import { lensDistanceMm, magnificationAt, magnificationToFit, pixelsAcross, samplingPpi } from "./sampling.ts";

/** What stands in the way of the aim, and what would reach it. `mind`: it can be reached all the same. */
export type PlanWarning = {
  readonly about: "field" | "sampling" | "aperture" | "exposure" | "lamps" | "evenness" | "glass" | "file";
  readonly weight: "in-the-way" | "mind";
  readonly text: string;
  readonly remedy: string;
};

export const warningsOfCamera = (plan: CameraPlan, camera: Camera, arrangement: Arrangement, job: Job): PlanWarning[] =>
  [
    field(plan, camera),
    samplingOfCamera(plan, camera, job),
    aperture(plan, camera, job),
    exposure(plan.exposure),
    lamps(plan.lighting, plan.lensMm),
    slant(plan.lighting),
    evenness(plan.lighting, job),
    glass(arrangement),
    ...fileWarnings(arrangement, job.asked),
  ].filter((warning) => warning !== null);

export const warningsOfScanner = (
  { ppi, fitsBed }: { ppi: number; fitsBed: boolean | null },
  arrangement: Arrangement,
  job: Job,
): PlanWarning[] =>
  [bed(fitsBed), samplingOfScanner(ppi, job), depthOfScanner(job), ...fileWarnings(arrangement, job.asked)].filter(
    (warning) => warning !== null,
  );

function field({ fits, needed, seen }: CameraPlan, camera: Camera): PlanWarning | null {
  if (fits) return null;
  const least = lensDistanceMm(camera.focalLengthMm, magnificationToFit(needed, camera.sensor));
  return {
    about: "field",
    weight: "in-the-way",
    text: `At this distance the camera sees ${mm(seen.widthMm)} × ${mm(seen.heightMm)} mm; print and margin need ${mm(needed.heightMm)} × ${mm(needed.widthMm)} mm.`,
    remedy: `Raise the camera until the lens is at least ${up(least)} mm above the print.`,
  };
}

function samplingOfCamera({ ppi, needed }: CameraPlan, camera: Camera, { asked }: Job): PlanWarning | null {
  if (ppi >= asked.aimedPpi) return null;
  const fitted = samplingPpi(magnificationToFit(needed, camera.sensor), camera.sensor);
  const wanted = fitted >= asked.aimedPpi ? asked.aimedPpi : asked.leastPpi;
  if (fitted > ppi && fitted >= wanted && ppi < wanted)
    return {
      ...short(ppi, asked),
      remedy: `Bring the lens nearer: at ${up(lensDistanceMm(camera.focalLengthMm, magnificationToFit(needed, camera.sensor)))} mm it reaches ${Math.floor(fitted)} ppi with the print just filling the picture.`,
    };
  return {
    ...short(ppi, asked),
    remedy: `The picture would have to be at least ${pixelsAcross(needed.heightMm, asked.aimedPpi)} × ${pixelsAcross(needed.widthMm, asked.aimedPpi)} pixels; with this sensor, capture the print in parts that overlap, or keep a narrower margin.`,
  };
}

const samplingOfScanner = (ppi: number, { asked }: Job): PlanWarning | null =>
  ppi >= asked.aimedPpi
    ? null
    : {
        ...short(ppi, asked),
        remedy: `Set the scanner to ${asked.aimedPpi} ppi, or the next step above that it offers as a true optical sampling.`,
      };

const short = (ppi: number, { leastPpi, aimedPpi }: Job["asked"]): Pick<PlanWarning, "about" | "weight" | "text"> =>
  ppi < leastPpi
    ? { about: "sampling", weight: "in-the-way", text: `Sampling is ${Math.floor(ppi)} ppi where at least ${leastPpi} ppi is asked.` }
    : {
        about: "sampling",
        weight: "mind",
        text: `Sampling is ${Math.floor(ppi)} ppi: enough, but less than the ${aimedPpi} ppi aimed at.`,
      };

function aperture(plan: CameraPlan, camera: Camera, job: Job): PlanWarning | null {
  const { window, used, depthMm, atCyPerMm } = plan.aperture;
  const best = window?.best;
  const at = `at ${atCyPerMm.toFixed(1)} cy/mm`;
  const weight = job.asked.detail.isRequired ? "in-the-way" : "mind";
  if (used && used.atTheEnds >= HALF_CONTRAST) return null;
  if (window && window.best.atTheEnds >= HALF_CONTRAST && used)
    return {
      about: "aperture",
      weight,
      text: `f/${used.fNumber} leaves at most ${percent(used.atTheEnds)} of the contrast ${at}: ${softBecause(plan.aperture)}.`,
      remedy: `Set f/${window.proposed.fNumber}: it can leave ${percent(window.proposed.atTheEnds)} over the whole depth of ${depthMm.toFixed(1)} mm.`,
    };
  return {
    about: "aperture",
    weight,
    text: `No aperture leaves half the contrast ${at} over a depth of ${depthMm.toFixed(1)} mm${best ? `; the best is f/${best.fNumber} with ${percent(best.atTheEnds)}` : ""}.`,
    remedy: fartherOrFlatter(plan, camera, job),
  };
}

const softBecause = ({ used, responses }: AperturePlan): string => {
  const open = Math.max(...responses.map(({ inFocus }) => inFocus));
  return used && used.inFocus < 0.75 * open ? "diffraction takes it" : "the parts out of the plane of focus are soft";
};

/** From farther away the print is drawn smaller and the depth grows, as long as the aimed sampling holds. */
function fartherOrFlatter(
  { aperture: { depthMm, atCyPerMm }, farthestLensMm, lensMm }: CameraPlan,
  camera: Camera,
  { asked }: Job,
): string {
  const flatter =
    "A print may be flattened only where its condition allows it and a conservator agrees; otherwise focus half-way up the curl, or take two captures, one focused low and one high.";
  if (farthestLensMm === null || farthestLensMm <= lensMm * 1.01) return flatter;
  const magnification = magnificationAt(camera.focalLengthMm, farthestLensMm);
  if (magnification === null) return flatter;
  const best = apertureWindow(
    apertureResponses({ magnification, pupilMagnification: camera.pupilMagnification }, depthMm, asked.aimedPpi, atCyPerMm),
  )?.best;
  if (!best || best.atTheEnds < HALF_CONTRAST) return flatter;
  return `Raise the lens to ${Math.floor(farthestLensMm)} mm: there f/${best.fNumber} can leave ${percent(best.atTheEnds)}, and sampling is still ${asked.aimedPpi} ppi. ${flatter}`;
}

/** Common practice, no source: mains lamps pulse 100 or 120 times a second, and a slit or electronic shutter draws that as bands. */
const FLICKER_SECONDS = 1 / 50;

const exposure = (plan: ExposurePlan | null): PlanWarning | null =>
  plan === null || plan.seconds >= FLICKER_SECONDS
    ? null
    : {
        about: "exposure",
        weight: "mind",
        text: "Lamps on the mains pulse 100 or 120 times a second; an exposure this short can show that as bands.",
        remedy:
          "Dim the lamps or lower the sensitivity until the exposure is 1/50 s or longer, or use lamps that are known not to flicker.",
      };

function lamps(plan: LightingPlan | null, lensMm: number): PlanWarning | null {
  if (plan === null || plan.clearanceMm >= 0) return null;
  const { steepestClearDegrees: steepest, lamps: of, halfAcrossMm, slopeDegrees } = plan;
  return {
    about: "lamps",
    weight: "in-the-way",
    text: `The lamps stand ${up(-plan.clearanceMm)} mm inside the family of angles: the print mirrors a part of them into the lens.`,
    remedy:
      steepest !== null
        ? `At this distance lower them to ${steepest}° or less${farEnough(of, halfAcrossMm, lensMm, slopeDegrees)}.`
        : "At this distance no height is clear: use a smaller lamp or stand it farther away, or raise the camera with a longer lens.",
  };
}

/** The nearest distance, by steps of 5 cm up to 5 m, at which lamps of this height are clear. */
function farEnough(of: LightingPlan["lamps"], halfAcrossMm: number, lensMm: number, slopeDegrees: number): string {
  for (let distanceMm = of.distanceMm; distanceMm <= 5000; distanceMm += 50)
    if (glareClearanceMm({ ...of, distanceMm }, halfAcrossMm, lensMm, slopeDegrees) >= 0)
      return `, or move them out to ${Math.round(distanceMm)} mm at the same angle`;
  return "";
}

/** Common practice, no source. */
const RAKING_DEGREES = 25;

const slant = (plan: LightingPlan | null): PlanWarning | null =>
  plan === null || plan.lamps.elevationDegrees >= RAKING_DEGREES
    ? null
    : {
        about: "lamps",
        weight: "mind",
        text: "Light this low draws the surface: creases, cockling and texture cast shadows.",
        remedy: "That is right for showing condition. For a master, raise the lamps towards 45° as long as they stay clear.",
      };

function evenness(plan: LightingPlan | null, { asked }: Job): PlanWarning | null {
  if (plan === null) return null;
  const { lamps: byLamps, lens, both, lightnessSpreadPercent } = plan.lossPercent;
  const over = (limit: number | null): limit is number => limit !== null && lightnessSpreadPercent > limit;
  const { mostPercent, worthlessPercent } = asked.evenness;
  if (!over(mostPercent) && !over(worthlessPercent)) return null;
  const against = over(mostPercent)
    ? `where at most ${mostPercent} % is asked`
    : `and from ${worthlessPercent} % on evenness counts for nothing`;
  return {
    about: "evenness",
    weight: over(mostPercent) ? "in-the-way" : "mind",
    text: `Light falls off by ${Math.round(both)} % over the print: lightness varies by ${lightnessSpreadPercent.toFixed(1)} % ${against}.`,
    remedy:
      byLamps > lens
        ? `Most of it comes from the lamps: ${plan.lamps.count === 1 ? "set a second one opposite" : "move them farther away"}. A picture of an even white sheet taken in the same way lets the rest be divided out.`
        : "Most of it comes from the lens: raise the camera with a longer lens. A picture of an even white sheet taken in the same way lets it be divided out.",
  };
}

function glass({ glass: kind, glassPercent }: Pick<Arrangement, "glass" | "glassPercent">): PlanWarning | null {
  if (kind === "none") return null;
  const share = glassReflection(kind, glassPercent);
  const isOneLayer = kind === "coated" && glassPercent == null;
  return {
    about: "glass",
    weight: "mind",
    text: `${GLASSES[kind]} adds ${(100 * share).toFixed(1)} % of the light of whatever faces it. Where that is as bright as the paper, black is lifted to L* ${Math.round(lightnessOf(share))}.${isOneLayer ? " That is one layer of magnesium fluoride; several layers throw back less: write what the maker says." : ""}`,
    remedy:
      "Hang black cloth round the camera and darken the ceiling, so that nothing bright faces the glass. Lay nothing on a fresh, tacky, flaking or leaking print; mind the glass's edges.",
  };
}

/** What the file cannot hold, whatever the lens draws. */
function fileWarnings({ bitsPerSample, fileForm = "lossless" }: Arrangement, { bits, lossless }: Asked): PlanWarning[] {
  const warnings: PlanWarning[] = [];
  if (bits && bitsPerSample < Math.max(bits.least ?? 0, bits.best)) {
    const isShort = bits.least !== null && bitsPerSample < bits.least;
    warnings.push({
      about: "file",
      weight: isShort ? "in-the-way" : "mind",
      text: `${bitsPerSample} bits a colour are planned${isShort ? `, where at least ${bits.least} are asked` : `: enough, but less than the ${bits.best} aimed at`}.`,
      remedy: "Save raw files and develop them in 16 bits, or scan in 16 bits a colour; a file made larger afterwards holds no more.",
    });
  }
  if (lossless && fileForm === "lossy" && lossless.best > 0) {
    const isShort = lossless.least !== null && lossless.least > 0;
    warnings.push({
      about: "file",
      weight: isShort ? "in-the-way" : "mind",
      text: isShort
        ? "A file with loss is planned, where one that keeps every value is asked."
        : "A file with loss is allowed, but counts less than one that keeps every value.",
      remedy: "Save raw files or TIFF; turning a JPEG into a TIFF afterwards brings nothing back.",
    });
  }
  return warnings;
}

const bed = (fitsBed: boolean | null): PlanWarning | null =>
  fitsBed !== false
    ? null
    : {
        about: "field",
        weight: "in-the-way",
        text: "Print and margin are larger than the scanner's bed.",
        remedy: "Use a camera on a copy stand or a larger bed. A print must not be bent or hang over the edge under the lid.",
      };

/** Common practice, no source: many flatbeds are sharp for a few tenths of a millimetre over the glass, some for several. */
const depthOfScanner = ({ curlMm }: Job): PlanWarning | null =>
  curlMm <= 0.5
    ? null
    : {
        about: "aperture",
        weight: "mind",
        text: `The print rises ${curlMm} mm off the glass, and how deep a scanner is sharp is not told by any figure it comes with.`,
        remedy: "Scan a ruler propped up at one end and see how far it stays sharp. The lid must not press a curled print flat.",
      };

const mm = (length: number): string => String(Math.round(length));
const up = (length: number): string => String(Math.ceil(length));
const percent = (share: number): string => `${Math.round(100 * share)} %`;
