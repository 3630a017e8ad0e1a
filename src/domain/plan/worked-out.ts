import type { Arrangement } from "./arrangement.ts";
import type { CameraPlan } from "./camera-plan.ts";
import { glassReflection, panesAt } from "./glass.ts";
import { glareZoneMm, lampPlaces } from "./lighting.ts";
import type { SizePlan } from "./plan-capture.ts";

/** One quantity of a plan: by which formula, what it came to, and who says so. */
export type Step = {
  readonly what: string;
  readonly formula: string;
  readonly here: number;
  readonly unit: string;
  readonly source: string;
};

/** What the letters of the formulas stand for. */
export const LETTERS =
  "m magnification, f focal length, N aperture as it is set, P pupil magnification, p distance between pixels on the sensor, z depth that is needed, ν cycles per mm of the print, λ 0.00055 mm (green light), c two samples of the aimed sampling as the sensor has them.";

const LENS = "thin lens (OpenStax, University Physics 3, 2.4)";
const CLOSE_UP = "W. J. Smith, Modern Optical Engineering (from memory)";

/** The formulas that counted in the plan for one size, in the order of the working, each with its result, unit and source. */
export const workedOut = (plan: SizePlan, arrangement: Arrangement): Step[] => [
  ...(plan.camera ? ofCamera(plan.camera, arrangement) : []),
  ...(plan.camera === null ? [step("Sampling", "the scanner's setting", plan.ppi, "ppi", "definition")] : []),
  step(
    "The print's longer side",
    "mm / 25.4 × sampling",
    Math.max(plan.printPx.width, plan.printPx.height),
    "px",
    "definition of the inch",
  ),
  ...ofGlass(arrangement),
  ...ofGlassAtAnAngle(arrangement),
  step("One file", "width × height × 3 colours × bits / 8", plan.bytes / 1e6, "MB", "definition"),
];

const step = (what: string, formula: string, here: number, unit: string, source: string): Step => ({ what, formula, here, unit, source });

function ofCamera(plan: CameraPlan, { camera }: Arrangement): Step[] {
  const said = camera?.lensDistanceMm != null;
  return [
    step(
      "Magnification",
      said ? "f / (distance − f)" : "sensor / (print + margin), the smaller of both sides",
      plan.magnification,
      "of its size",
      said ? LENS : "definition",
    ),
    step("Sampling", "25.4 m / p", plan.ppi, "ppi", "definition"),
    step("Print to lens", "f (1 + 1/m)", plan.lensMm, "mm", LENS),
    step("Print to sensor", "f (2 + m + 1/m)", plan.sensorMm, "mm", `${LENS}, principal points together`),
    ...ofAperture(plan),
    ...ofExposure(plan),
    ...ofLamps(plan),
  ];
}

function ofAperture({ aperture: { used, effectiveFNumber, depthOfFieldMm, diffractionSpot } }: CameraPlan): Step[] {
  if (!used || effectiveFNumber === null || depthOfFieldMm === null || diffractionSpot === null) return [];
  return [
    step("Aperture as it works", "N (1 + m/P)", effectiveFNumber, "as f-number", CLOSE_UP),
    step("Depth of field", "2 N c (1/m + 1/P) / m", depthOfFieldMm, "mm", CLOSE_UP),
    step(
      "Diffraction spot on the sensor",
      "2.44 λ N (1 + m/P)",
      1000 * diffractionSpot.sensorMm,
      "µm",
      "OpenStax, University Physics 3, 4.5",
    ),
    step("Diffraction spot on the print", "that / m", diffractionSpot.printMm, "mm", "definition of m"),
    step(
      "Contrast in focus",
      "(2/π) (arccos s − s √(1 − s²)) × sin(πpν/m) / (πpν/m), s = λ ν N (1 + m/P) / m",
      100 * used.inFocus,
      "%",
      "J. W. Goodman, Introduction to Fourier Optics (from memory); square pixels",
    ),
    step(
      "Contrast at the ends of the depth",
      "that × 2 J₁(πdν) / (πdν), d = z / (2 N (1/m + 1/P))",
      100 * used.atTheEnds,
      "%",
      "H. H. Hopkins 1955, diffraction and blur as a product (from memory)",
    ),
  ];
}

function ofExposure({ exposure }: CameraPlan): Step[] {
  if (exposure === null) return [];
  return [
    step("Light on the print", "lux = 2.5 × 2^EV", 2.5 * 2 ** exposure.ev100, "lx", "ISO 2720, flat receptor, C = 250 lx s"),
    step("Exposure", "(N (1 + m/P))² / (2^EV × ISO / 100)", exposure.seconds, "s", "ISO 2720, additive system"),
    step("Light lost close up", "2 log₂(1 + m/P)", exposure.lossStops, "stops", CLOSE_UP),
  ];
}

function ofLamps({ lighting, lensMm }: CameraPlan): Step[] {
  if (lighting === null) return [];
  const { lamps, halfAcrossMm, slopeDegrees, clearanceMm, lossPercent } = lighting;
  const heightMm = lampPlaces(lamps)[0]?.z ?? 0;
  const reflection = "law of reflection (OpenStax, University Physics 3, 1.2)";
  return [
    step("Slope at the print's edge", "arctan(4 × rise / width)", slopeDegrees, "°", "geometry of a shallow arc"),
    step(
      "Family of angles at the lamps' height h",
      "w + h tan(arctan(w / lens) + 2 × slope), w half the print towards the lamp",
      glareZoneMm(halfAcrossMm, lensMm, heightMm, slopeDegrees),
      "mm from the middle",
      reflection,
    ),
    step(
      "Room between it and the lamps' faces",
      "distance of either edge of the face, less the family there",
      clearanceMm,
      "mm",
      reflection,
    ),
    step("Light lost by the lamps' places", "sum over the lamps of cos i / distance²", lossPercent.lamps, "%", "Lambert; inverse square"),
    step("Light lost by the lens", "cos⁴ of the angle from its axis", lossPercent.lens, "%", "natural vignetting (textbook)"),
    step("Evenness", "standard deviation / mean of L* over plain paper", lossPercent.lightnessSpreadPercent, "%", "36 CFR 1236.50; CIE 15"),
  ];
}

function ofGlass({ glass, glassPercent }: Arrangement): Step[] {
  if (glass === "none") return [];
  const percent = 100 * glassReflection(glass, glassPercent);
  const what = "Light that the glass throws back";
  if (glassPercent != null) return [step(what, "as its maker says", percent, "%", "the maker")];
  const face = glass === "plain" ? "R = ((n − 1) / (n + 1))², n = 1.52" : "R = ((n − k²) / (n + k²))², n = 1.52, k = 1.38";
  return [step(what, `2 R / (1 + R), ${face}`, percent, "%", "Fresnel; indices from memory")];
}

/** What leaves the glass at the lamps' own angle, and stays out of the picture while they stand outside the family of angles. */
function ofGlassAtAnAngle({ glass, light }: Arrangement): Step[] {
  if (glass === "none" || light.lamps === null) return [];
  const { plain, coated } = panesAt(90 - light.lamps.elevationDegrees);
  const source = "Fresnel; Airy's sum for the layer (Born and Wolf, from memory)";
  return [
    step("Plain glass at the lamps' angle", "2 R / (1 + R), R mean of both polarisations", 100 * plain, "%", source),
    step("Glass with one layer at that angle", "the same, the layer a quarter wave thick seen from above", 100 * coated, "%", source),
  ];
}
