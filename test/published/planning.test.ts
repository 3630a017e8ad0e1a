import { expect, test } from "vitest";
import {
  airyDiscMm,
  blurDiscMm,
  cutOffCyPerMm,
  depthOfFieldMm,
  diffractionResponse,
  discResponse,
  effectiveFNumber,
  pixelResponse,
} from "#domain/plan/aperture.ts";
import { closeUpLossStops, exposureSeconds, exposureValueOfLux } from "#domain/plan/exposure.ts";
import {
  COATING,
  coatedReflection,
  coatedReflectionAt,
  plateReflection,
  surfaceReflection,
  surfaceReflectionAt,
  WINDOW_GLASS,
} from "#domain/plan/glass.ts";
import { glareZoneMm, lensFallOff, lightAt } from "#domain/plan/lighting.ts";
import { lensDistanceMm, magnificationAt, sensorDistanceMm } from "#domain/plan/sampling.ts";

const closeUp = { magnification: 0.3, fNumber: 8, pupilMagnification: 1 };

test("ISO 2720, flat receptor with C = 250: EV 10 at ISO 100 is 2560 lx", () => {
  expect(exposureValueOfLux(2560)).toBeCloseTo(10, 10);
});

test("the sunny-sixteen rule of exposure tables (common practice, no source): EV 15 at ISO 100 is f/16 at about 1/125 s, and f/8 at ISO 200 is 1/1000 s", () => {
  expect(1 / exposureSeconds(15, 100, 16)).toBeCloseTo(128, 6);
  expect(1 / exposureSeconds(15, 200, 8)).toBeCloseTo(1024, 6);
});

test("close-up tables of photography handbooks (from memory): life size takes two stops, half life size 1.2 stops, and f/8 works as f/16 at life size", () => {
  expect(closeUpLossStops(1, 1)).toBeCloseTo(2, 10);
  expect(closeUpLossStops(0.5, 1)).toBeCloseTo(1.17, 2);
  expect(effectiveFNumber({ magnification: 1, fNumber: 8, pupilMagnification: 1 })).toBe(16);
});

// The table does not name its circle; 0.05 mm is what all its rows agree with. It rounds, by up to 4 % in its coarse rows.
test.each([
  { magnification: 0.3, fNumber: 8, depthMm: 12 },
  { magnification: 0.4, fNumber: 8, depthMm: 7 },
  { magnification: 0.5, fNumber: 16, depthMm: 9.6 },
  { magnification: 0.7, fNumber: 11, depthMm: 3.8 },
  { magnification: 1, fNumber: 8, depthMm: 1.6 },
  { magnification: 1.5, fNumber: 32, depthMm: 3.6 },
  { magnification: 2, fNumber: 8, depthMm: 0.6 },
  { magnification: 3, fNumber: 8, depthMm: 0.36 },
])(
  "depth-of-field close-up table, macrobellows.com/dof_table.php: $depthMm mm at scale $magnification and f/$fNumber",
  ({ depthMm, ...at }) => {
    expect(Math.abs(depthOfFieldMm({ ...at, pupilMagnification: 1 }, 0.05) / depthMm - 1)).toBeLessThan(0.04);
  },
);

test("pupil factor, worked by hand: at half life size, f/8 and P = 0.5 works as f/16, is sharp over 3.84 mm, blurs a point 2 mm off to 1/16 mm, and loses two stops", () => {
  const retro = { magnification: 0.5, fNumber: 8, pupilMagnification: 0.5 };
  // 8 (1 + 0.5 / 0.5)
  expect(effectiveFNumber(retro)).toBe(16);
  // 2 · 8 · 0.03 (1 / 0.5 + 1 / 0.5) / 0.5; with P = 1 it would be 2.88
  expect(depthOfFieldMm(retro, 0.03)).toBeCloseTo(3.84, 10);
  expect(depthOfFieldMm({ ...retro, pupilMagnification: 1 }, 0.03)).toBeCloseTo(2.88, 10);
  // 2 / (8 (2 + 2)); with P = 1 it would be 1/12
  expect(blurDiscMm(retro, 2)).toBeCloseTo(1 / 16, 10);
  expect(closeUpLossStops(0.5, 0.5)).toBe(2);
  // m / (λ N) of the effective f/16
  expect(cutOffCyPerMm(retro)).toBeCloseTo(0.5 / (0.00055 * 16), 10);
});

test("OpenStax, University Physics 3, 2.4, thin lens: an object at 2 f is drawn life size at 2 f behind the lens; 1/o + 1/i = 1/f elsewhere", () => {
  expect(lensDistanceMm(50, 1)).toBe(100);
  expect(sensorDistanceMm(50, 1)).toBe(200);
  const lensMm = 433.3333333;
  const behind = 1 / (1 / 100 - 1 / lensMm);
  expect(magnificationAt(100, lensMm)).toBeCloseTo(behind / lensMm, 9);
  expect(sensorDistanceMm(100, magnificationAt(100, lensMm) ?? 0)).toBeCloseTo(lensMm + behind, 6);
});

test("OpenStax, University Physics 3, 4.5: a circular opening of 2.40 m at 550 nm resolves 2.80e-7 rad; the Airy disc is twice that wide", () => {
  // far away (m → 0) the disc over the focal length is 2.44 λ / D; with D = 2400 mm and f = 2400 N mm
  const fNumber = 8;
  const disc = airyDiscMm({ magnification: 0, fNumber, pupilMagnification: 1 });
  expect(disc / 2 / (2400 * fNumber)).toBeCloseTo(2.8e-7, 9);
});

test("diffraction tables (J. W. Goodman, Introduction to Fourier Optics, circular pupil, from memory): half the cut-off leaves 39.1 %, a tenth 87.3 %", () => {
  const cutOff = cutOffCyPerMm(closeUp);
  expect(diffractionResponse(closeUp, cutOff / 2)).toBeCloseTo(0.391, 3);
  expect(diffractionResponse(closeUp, cutOff / 10)).toBeCloseTo(0.873, 3);
  expect(diffractionResponse(closeUp, cutOff * 1.01)).toBe(0);
  // m / (λ N (1 + m)): 0.3 / (0.00055 · 10.4)
  expect(cutOff).toBeCloseTo(52.4, 1);
});

test("M. Abramowitz and I. Stegun, table 9.5 and 9.1: the disc's response 2 J1(x) / x is zero at x = 3.83171 and 0.88010 at x = 1", () => {
  expect(discResponse(3.83171 / Math.PI, 1)).toBeCloseTo(0, 5);
  // J1(1) = 0.4400505857
  expect(discResponse(1 / Math.PI, 1)).toBeCloseTo(2 * 0.4400505857, 8);
  expect(discResponse(0, 5)).toBeCloseTo(1, 12);
});

test("a square pixel leaves 2/π = 63.7 % at half the sampling and nothing at the sampling itself (textbook sinc)", () => {
  expect(pixelResponse(25.4, 0.5)).toBeCloseTo(2 / Math.PI, 10);
  expect(pixelResponse(25.4, 1)).toBeCloseTo(0, 10);
});

test("glass manufacturers' tables and E. Hecht, Optics (from memory): crown glass throws back about 4.3 % a face and 8 % a pane; a quarter-wave of MgF2 brings a face to 1.3 %", () => {
  expect(surfaceReflection(1.5)).toBeCloseTo(0.04, 10);
  expect(100 * surfaceReflection(WINDOW_GLASS)).toBeCloseTo(4.26, 2);
  expect(100 * plateReflection(surfaceReflection(WINDOW_GLASS))).toBeCloseTo(8.17, 2);
  expect(100 * coatedReflection(WINDOW_GLASS, COATING)).toBeCloseTo(1.3, 1);
});

test("Fresnel at an angle: nothing of one polarisation at Brewster's angle (56.7° for n = 1.52, OpenStax 1.7), so the mean there is half of the other; all at grazing", () => {
  const brewster = (Math.atan(1.52) * 180) / Math.PI;
  expect(brewster).toBeCloseTo(56.7, 1);
  // at Brewster's angle R_s = ((1 − n²) / (1 + n²))²
  expect(surfaceReflectionAt(1.52, brewster)).toBeCloseTo(((1 - 1.52 ** 2) / (1 + 1.52 ** 2)) ** 2 / 2, 10);
  expect(surfaceReflectionAt(1.52, 0.0001)).toBeCloseTo(surfaceReflection(1.52), 8);
  expect(surfaceReflectionAt(1.52, 89.99)).toBeGreaterThan(0.99);
});

test("Born and Wolf, 1.6 (from memory): a layer seen from above is the quarter-wave formula, a layer of air or of glass is the bare face at any angle, and all comes back at grazing", () => {
  expect(coatedReflectionAt(WINDOW_GLASS, COATING, 0)).toBeCloseTo(coatedReflection(WINDOW_GLASS, COATING), 10);
  for (const degrees of [0, 20, 45, 70]) {
    expect(coatedReflectionAt(WINDOW_GLASS, 1, degrees)).toBeCloseTo(surfaceReflectionAt(WINDOW_GLASS, degrees), 10);
    expect(coatedReflectionAt(WINDOW_GLASS, WINDOW_GLASS, degrees)).toBeCloseTo(surfaceReflectionAt(WINDOW_GLASS, degrees), 10);
    expect(coatedReflectionAt(WINDOW_GLASS, COATING, degrees)).toBeLessThan(surfaceReflectionAt(WINDOW_GLASS, degrees));
  }
  expect(coatedReflectionAt(WINDOW_GLASS, COATING, 89.99)).toBeGreaterThan(0.99);
});

test("law of reflection (OpenStax 1.2): the mirror image of the lens in a flat print bounds where a lamp is seen, as a straight line through the edge", () => {
  // similar triangles: w (1 + h / H)
  expect(glareZoneMm(54, 500, 566, 0)).toBeCloseTo(54 * (1 + 566 / 500), 9);
  // and the surface turned by 5° turns the ray by 10°
  expect(glareZoneMm(0, 500, 566, 5)).toBeCloseTo(566 * Math.tan((10 * Math.PI) / 180), 9);
});

test("cosine and inverse-square law (Lambert), worked by hand: a lamp at 45° and 800 mm gives the near edge of ±54 mm 15 % more and the far one 13 % less; one opposite leaves 1 % more at both", () => {
  const one = { count: 1 as const, elevationDegrees: 45, distanceMm: 800, widthMm: 1 };
  // the lamp stands 565.685 mm out and as high: cos i / d² goes with 1 / d³, d² = (565.685 ± 54)² + 565.685²
  const near = (640_000 / (511.685 ** 2 + 565.685 ** 2)) ** 1.5;
  const far = (640_000 / (619.685 ** 2 + 565.685 ** 2)) ** 1.5;
  expect(lightAt(one, -54, 0)).toBeCloseTo(near, 5);
  expect(lightAt(one, 54, 0)).toBeCloseTo(far, 5);
  expect(near).toBeCloseTo(1.15, 2);
  expect(far).toBeCloseTo(0.87, 2);
  expect(lightAt({ ...one, count: 2 }, 54, 0)).toBeCloseTo(1.01, 2);
});

test("cos⁴ law of natural vignetting, tables (from memory): 10° leaves 0.941, 20° 0.780, 30° 0.563", () => {
  for (const [degrees, left] of [
    [10, 0.941],
    [20, 0.78],
    [30, 0.563],
  ] as const)
    expect(lensFallOff(1000 * Math.tan((degrees * Math.PI) / 180), 1000)).toBeCloseTo(left, 3);
});
