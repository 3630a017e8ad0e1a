import { type CopyStandCapture, copyStandCapture } from "../capture-model/copy-stand.ts";
import { lamp, mirroredLamp } from "../capture-model/lighting.ts";
import type { Ageing } from "../print-drawing.ts";
import { seedOf } from "../random.ts";
import { type Output, only, type PlannedCapture } from "./planned-capture.ts";

const ONE_LAMP = lamp(-380, -60, 420);
const AS_2015 = {
  ground: "black card",
  marginMm: 8,
  fNumber: 2.8,
  light: ONE_LAMP,
  exposure: 1,
  noise: 0.004,
  sharpening: 0.5,
  bits: 8,
} as const;
const LEVEL = { ground: "black velvet", marginMm: 5, fNumber: 8, exposure: 0.97, noise: 0.0016, bits: 8, sharpnessPx: 0.48 } as const;

export const COPY_STAND_CAPTURES: readonly PlannedCapture[] = [
  stand2015("1896.001.01", "2015-09-05T11:02:00", "focus falls off: camera and board not parallel", {
    ppi: 270,
    tiltXDegrees: 5,
    turnDegrees: 0.6,
  }),
  stand2015("1968.001.01", "2015-09-05T11:20:00", "focus falls off to the right, light uneven", {
    ppi: 300,
    tiltYDegrees: 6,
    turnDegrees: -0.4,
  }),
  stand2015("1978.004.12", "2015-09-05T11:34:00", "ten years before the other: leaning a little, light from one side", {
    ppi: 300,
    tiltXDegrees: 1.5,
    fNumber: 5.6,
  }),
  stand2015("1987.005.01", "2015-09-05T12:00:00", "the lamp mirrored in the gloss, focus falls off", {
    ppi: 250,
    tiltXDegrees: 4,
    mirrored: mirroredLamp({ xMm: -60, yMm: -20, radiusMm: 9, strength: 0.5 }),
  }),
  stand2015("1987.005.02", "2015-09-05T12:08:00", "focus falls off", { ppi: 250, tiltXDegrees: -5 }),
  stand2015("1991.003.01", "2015-09-05T12:15:00", "focus falls off over the large sheet, light uneven", {
    ppi: 170,
    tiltXDegrees: 3.5,
    tiltYDegrees: 2,
  }),
  level(
    "1978.004.12",
    "2025-09-13T10:05:00",
    "JPEG and 8 bits from the camera, though a raw file was possible",
    { ppi: 960, noise: 0.0024, sharpnessPx: 0.9 },
    { kind: "jpeg", quality: 82, ageing: 1, take: 2 },
  ),
  level("1974.004.01", "2025-09-13T10:12:00", "JPEG and 8 bits from the camera", { ppi: 400, noise: 0.002 }, { kind: "jpeg", quality: 88 }),
  level("1884.001.01", "2025-09-13T10:20:00", "JPEG and 8 bits from the camera", { ppi: 420, noise: 0.002 }, { kind: "jpeg", quality: 88 }),
  level(
    "1987.005.01",
    "2025-09-13T10:30:00",
    "JPEG and 8 bits from the camera",
    { ppi: 560, noise: 0.0024, sharpnessPx: 0.8 },
    { kind: "jpeg", quality: 82, take: 2 },
  ),
  level("1938.002.01", "2025-09-13T10:41:00", null, { ppi: 420, bits: 16, noise: 0.0012 }, { kind: "tiff", grey: true }),
  level("1938.002.02", "2025-09-13T10:46:00", null, { ppi: 410 }, { kind: "png", grey: true }),
  level("2003.001.01", "2025-09-13T10:52:00", null, { ppi: 400, bits: 16, noise: 0.0008, marginMm: 2 }, { kind: "png" }),
  level("2019.001.01", "2025-09-13T10:58:00", null, { ppi: 400, noise: 0.0012, marginMm: 3 }, { kind: "tiff" }),
  {
    ...level("1981.002.03", "2025-09-13T11:10:00", "a name that says nothing", { ppi: 250, noise: 0.002 }, { kind: "jpeg", quality: 84 }),
    file: "capture 3.jpg",
  },
];

type Made = { kind: Output["kind"]; quality?: number; grey?: boolean; ageing?: Ageing; take?: number };

function stand2015(number: string, takenAt: string, wrong: string, settings: Partial<CopyStandCapture> & { ppi: number }): PlannedCapture {
  return stand(number, "stand-2015", takenAt, wrong, { ...AS_2015, ...settings }, { kind: "jpeg", quality: 84 });
}

function level(
  number: string,
  takenAt: string,
  wrong: string | null,
  settings: Partial<CopyStandCapture> & { ppi: number },
  made: Made,
): PlannedCapture {
  const turnDegrees = ((seedOf(number) % 60) - 30) / 100;
  return stand(number, "stand-level", takenAt, wrong, { ...LEVEL, turnDegrees, ...settings }, made);
}

function stand(
  number: string,
  setUp: string,
  takenAt: string,
  wrong: string | null,
  settings: Omit<CopyStandCapture, "seed">,
  made: Made,
): PlannedCapture {
  const ending = { jpeg: "jpg", png: "png", tiff: "tif" }[made.kind];
  const file = `${number}_copy-stand-${made.take ?? 1}.${ending}`;
  return {
    file,
    setUp,
    prints: [number],
    takenAt,
    wrong,
    ...(made.ageing === undefined ? {} : { ageing: made.ageing }),
    take: (sheets) => copyStandCapture(only(sheets), { ...settings, seed: seedOf(file) }),
    output: {
      kind: made.kind,
      ...(made.quality === undefined ? {} : { quality: made.quality }),
      ...(made.grey === undefined ? {} : { grey: made.grey }),
      claimedPpi: setUp === "stand-level" ? settings.ppi : 72,
      device: "copy camera",
      exposureTime: setUp === "stand-level" ? "1/4" : "1/60",
      fNumber: `${Math.round(settings.fNumber * 10)}/10`,
      iso: "100",
      focalLength: "60/1",
      focalLength35: "90",
    },
  };
}
