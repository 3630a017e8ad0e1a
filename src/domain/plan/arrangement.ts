import { z } from "zod";
import { chosen, quantity } from "../print/typed-text.ts";
import { type FileForm, isFileForm } from "./file-form.ts";
import { type Glass, isGlass } from "./glass.ts";
import type { Lamps } from "./lighting.ts";
import type { Sensor } from "./sampling.ts";

/** The figures of a set-up that a plan is worked out from. */
export type Arrangement = {
  readonly camera: Camera | null;
  readonly scanner: Scanner | null;
  readonly light: Light;
  readonly glass: Glass;
  /** share of the light that the whole pane throws back, as its maker says; without it the share is worked out */
  readonly glassPercent?: number | null;
  readonly bitsPerSample: 8 | 16;
  /** figures kept before it was asked are those of a file without loss */
  readonly fileForm?: FileForm;
};

export type Light = {
  readonly lamps: Lamps | null;
  /** measured where the print lies: one of both, or none */
  readonly lux: number | null;
  /** exposure value at ISO 100 */
  readonly ev100?: number | null;
  readonly sensitivityIso: number;
};

export type Camera = {
  readonly sensor: Sensor;
  readonly focalLengthMm: number;
  readonly pupilMagnification: number;
  /** null: the plan proposes one */
  readonly fNumber: number | null;
  /** from print to lens; null: as near as the print and its margin allow */
  readonly lensDistanceMm: number | null;
  /** how far the plane of focus bends off a flat print at its corners */
  readonly fieldCurvatureMm: number;
};

export type Scanner = { readonly ppi: number; readonly bedWidthMm: number | null; readonly bedHeightMm: number | null };

const whole = (least: number, most: number, message: string) =>
  quantity(least, most, message).refine((number) => number === null || Number.isInteger(number), message);

/** What each field of an arrangement is called, wherever it is named, in the order of the form. */
export const ARRANGEMENT_LABELS = {
  sensorWidthMm: "Sensor, width",
  sensorHeightMm: "Sensor, height",
  sensorWidthPx: "Picture, width",
  sensorHeightPx: "Picture, height",
  focalLengthMm: "Focal length",
  pupilMagnification: "Pupil magnification",
  fNumber: "Aperture",
  lensDistanceMm: "Distance from print to lens",
  fieldCurvatureMm: "Field curvature at the corners",
  scannerPpi: "Scanner's setting",
  bedWidthMm: "Scanner's bed, width",
  bedHeightMm: "Scanner's bed, height",
  lampCount: "Lamps",
  lampElevationDegrees: "Height of the lamps",
  lampDistanceMm: "Distance from print to lamp",
  lampWidthMm: "Lamp's bright face, across",
  lux: "Light on the print",
  ev100: "Light as exposure value",
  sensitivityIso: "Sensitivity",
  glass: "Glass over the print",
  glassPercent: "Glass throws back",
  bitsPerSample: "Bits a colour",
  fileForm: "File",
} as const;
type Field = keyof typeof ARRANGEMENT_LABELS;

const fields = z.object({
  sensorWidthMm: quantity(2, 300, "Write the sensor's width in millimetres, such as 35.9.", "mm"),
  sensorHeightMm: quantity(2, 300, "Write the sensor's height in millimetres, such as 24.", "mm"),
  sensorWidthPx: whole(100, 60_000, "Write how many pixels the picture is wide, such as 6000."),
  sensorHeightPx: whole(100, 60_000, "Write how many pixels the picture is high, such as 4000."),
  focalLengthMm: quantity(1, 2000, "Write the lens's real focal length in millimetres, such as 60.", "mm"),
  pupilMagnification: quantity(0.1, 10, "Write the pupil magnification, from 0.1 to 10; leave it empty where it is not known."),
  fNumber: quantity(0.7, 128, "Write the aperture as the number after f/, such as 8."),
  lensDistanceMm: quantity(5, 10_000, "Write the distance from print to lens in millimetres, such as 450.", "mm"),
  fieldCurvatureMm: quantity(0, 100, "Write in millimetres how far the focus bends at the corners, such as 0.5.", "mm"),
  scannerPpi: whole(10, 20_000, "Write the scanner's setting in pixels per inch, such as 600."),
  bedWidthMm: quantity(20, 2000, "Write the width of the scanner's bed in millimetres, such as 216.", "mm"),
  bedHeightMm: quantity(20, 2000, "Write the height of the scanner's bed in millimetres, such as 297.", "mm"),
  lampCount: chosen((text): text is "1" | "2" | "4" => ["1", "2", "4"].includes(text), "Choose how many lamps there are."),
  lampElevationDegrees: quantity(5, 85, "Write the lamps' height as an angle from 5 to 85 degrees, such as 45."),
  lampDistanceMm: quantity(50, 10_000, "Write the distance from print to lamp in millimetres, such as 800.", "mm"),
  lampWidthMm: quantity(1, 3000, "Write how wide the lamp's bright face is in millimetres, such as 200.", "mm"),
  lux: quantity(1, 200_000, "Write the light on the print in lux, such as 2000."),
  ev100: quantity(0, 25, "Write the exposure value at ISO 100, such as 9.5."),
  sensitivityIso: whole(6, 102_400, "Write the sensitivity as its ISO number, such as 100."),
  glass: chosen(isGlass, "Choose what glass lies over the print."),
  glassPercent: quantity(0, 20, "Write in percent what the whole pane throws back, such as 0.7.", "%"),
  bitsPerSample: chosen((text): text is "8" | "16" => text === "8" || text === "16", "Choose 8 or 16 bits a colour."),
  fileForm: chosen(isFileForm, "Choose whether the file keeps every value."),
});
type Typed = z.output<typeof fields>;

const CAMERA_NEEDS = ["sensorWidthMm", "sensorHeightMm", "sensorWidthPx", "sensorHeightPx", "focalLengthMm"] as const satisfies Field[];
const LAMP_NEEDS = ["lampCount", "lampElevationDegrees", "lampDistanceMm", "lampWidthMm"] as const satisfies Field[];

/** An arrangement as a form or the command line gives it: texts in, figures out. A camera or a scanner, and lamps whole or not at all. */
export const arrangementInput = fields
  .superRefine((input, issues) => {
    const camera = begun(input, [...CAMERA_NEEDS, "pupilMagnification", "fNumber", "lensDistanceMm", "fieldCurvatureMm"]);
    const scanner = begun(input, ["scannerPpi", "bedWidthMm", "bedHeightMm"]);
    const say = (path: Field, message: string) => issues.addIssue({ code: "custom", path: [path], message });
    if (camera && scanner) say("scannerPpi", "Plan with a camera or with a scanner: empty the fields of the other.");
    else if (!camera && !scanner)
      say("sensorWidthMm", "A plan needs the figures of a camera (its sensor, picture and focal length) or a scanner's setting.");
    else if (camera)
      for (const name of CAMERA_NEEDS) if (input[name] === null) say(name, `A plan with a camera needs this: ${NEEDED[name]}.`);
    if (scanner && !camera && input.scannerPpi === null) say("scannerPpi", "A plan with a scanner needs its setting, such as 600.");
    if (begun(input, [...LAMP_NEEDS]))
      for (const name of LAMP_NEEDS) if (input[name] === null) say(name, "Say all four things of the lamps, or none.");
    if (input.lux !== null && input.ev100 !== null) say("ev100", "Write the light once: in lux or as exposure value. Empty one of them.");
    if (input.glassPercent !== null && (input.glass ?? "none") === "none")
      say("glass", "Without glass nothing is thrown back: choose the glass, or empty what it throws back.");
    if (input.fileForm === "lossy" && input.bitsPerSample === "16")
      say("bitsPerSample", "A JPEG holds 8 bits a colour: choose 8 bits, or a file without loss.");
    if (camera && input.lensDistanceMm !== null && input.focalLengthMm !== null && input.lensDistanceMm <= input.focalLengthMm)
      say("lensDistanceMm", "Nearer than its focal length no lens forms a picture. Write a larger distance, or leave it empty.");
  })
  .transform(
    (input): Arrangement => ({
      camera: cameraOf(input),
      scanner: input.scannerPpi === null ? null : { ppi: input.scannerPpi, bedWidthMm: input.bedWidthMm, bedHeightMm: input.bedHeightMm },
      light: { lamps: lampsOf(input), lux: input.lux, ev100: input.ev100, sensitivityIso: input.sensitivityIso ?? 100 },
      glass: input.glass ?? "none",
      glassPercent: input.glassPercent,
      bitsPerSample: input.bitsPerSample === "8" || (input.bitsPerSample === null && input.fileForm === "lossy") ? 8 : 16,
      fileForm: input.fileForm ?? "lossless",
    }),
  );

const NEEDED = {
  sensorWidthMm: "the sensor's width in millimetres",
  sensorHeightMm: "the sensor's height in millimetres",
  sensorWidthPx: "how many pixels a picture is wide",
  sensorHeightPx: "how many pixels a picture is high",
  focalLengthMm: "the lens's focal length in millimetres",
} as const;

const begun = (input: Typed, names: readonly Field[]): boolean => names.some((name) => input[name] !== null);

function cameraOf(input: Typed): Camera | null {
  const { sensorWidthMm, sensorHeightMm, sensorWidthPx, sensorHeightPx, focalLengthMm } = input;
  if (!sensorWidthMm || !sensorHeightMm || !sensorWidthPx || !sensorHeightPx || !focalLengthMm) return null;
  return {
    sensor: { widthMm: sensorWidthMm, heightMm: sensorHeightMm, widthPx: sensorWidthPx, heightPx: sensorHeightPx },
    focalLengthMm,
    pupilMagnification: input.pupilMagnification ?? 1,
    fNumber: input.fNumber,
    lensDistanceMm: input.lensDistanceMm,
    fieldCurvatureMm: input.fieldCurvatureMm ?? 0,
  };
}

function lampsOf({ lampCount, lampElevationDegrees, lampDistanceMm, lampWidthMm }: Typed): Lamps | null {
  if (lampCount === null || lampElevationDegrees === null || lampDistanceMm === null || lampWidthMm === null) return null;
  return {
    count: Number(lampCount) as Lamps["count"],
    elevationDegrees: lampElevationDegrees,
    distanceMm: lampDistanceMm,
    widthMm: lampWidthMm,
  };
}

/** An arrangement's fields as its form shows them: the opposite of `arrangementInput`. */
export function typedFromArrangement(arrangement: Arrangement): Partial<Record<Field, string>> {
  const { camera, scanner, light, glass, glassPercent, bitsPerSample, fileForm } = arrangement;
  const said: Partial<Record<Field, string | number | null>> = {
    sensorWidthMm: camera?.sensor.widthMm,
    sensorHeightMm: camera?.sensor.heightMm,
    sensorWidthPx: camera?.sensor.widthPx,
    sensorHeightPx: camera?.sensor.heightPx,
    focalLengthMm: camera?.focalLengthMm,
    pupilMagnification: camera?.pupilMagnification,
    fNumber: camera?.fNumber,
    lensDistanceMm: camera?.lensDistanceMm,
    fieldCurvatureMm: camera?.fieldCurvatureMm,
    scannerPpi: scanner?.ppi,
    bedWidthMm: scanner?.bedWidthMm,
    bedHeightMm: scanner?.bedHeightMm,
    lampCount: light.lamps?.count,
    lampElevationDegrees: light.lamps?.elevationDegrees,
    lampDistanceMm: light.lamps?.distanceMm,
    lampWidthMm: light.lamps?.widthMm,
    lux: light.lux,
    ev100: light.ev100,
    sensitivityIso: light.sensitivityIso,
    glass,
    glassPercent,
    bitsPerSample,
    fileForm,
  };
  return Object.fromEntries(Object.entries(said).flatMap(([name, value]) => (value == null ? [] : [[name, String(value)]])));
}
