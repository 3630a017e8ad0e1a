import type { ARRANGEMENT_LABELS } from "./arrangement.ts";
import { FILE_FORMS } from "./file-form.ts";
import { GLASSES } from "./glass.ts";
import type { JOB_LABELS } from "./job-input.ts";

export type FigureName = keyof typeof ARRANGEMENT_LABELS | keyof typeof JOB_LABELS;

/** The unit that each figure of a plan is written in, wherever it is asked for. */
export const FIGURE_UNITS: Readonly<Partial<Record<FigureName, string>>> = {
  printWidthMm: "mm",
  printHeightMm: "mm",
  marginMm: "mm",
  curlMm: "mm",
  minutesPerPrint: "min",
  minutesToSetUp: "min",
  sensorWidthMm: "mm",
  sensorHeightMm: "mm",
  sensorWidthPx: "px",
  sensorHeightPx: "px",
  focalLengthMm: "mm",
  lensDistanceMm: "mm",
  fieldCurvatureMm: "mm",
  scannerPpi: "ppi",
  bedWidthMm: "mm",
  bedHeightMm: "mm",
  lampElevationDegrees: "°",
  lampDistanceMm: "mm",
  lampWidthMm: "mm",
  lux: "lx",
  ev100: "EV",
  sensitivityIso: "ISO",
  glassPercent: "%",
};

/** What may be written where something is chosen. */
export const FIGURE_CHOICES: Readonly<Partial<Record<FigureName, readonly string[]>>> = {
  lampCount: ["1", "2", "4"],
  glass: Object.keys(GLASSES),
  bitsPerSample: ["8", "16"],
  fileForm: Object.keys(FILE_FORMS),
};
