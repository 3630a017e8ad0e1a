import { expect, test } from "vitest";
import type { Camera } from "#domain/plan/arrangement.ts";
import { pupilDistanceMm } from "#domain/plan/sampling.ts";
import { lensOfCapture } from "#domain/recapture/lens-of-capture.ts";

const CAMERA: Camera = {
  sensor: { widthMm: 36, heightMm: 24, widthPx: 6000, heightPx: 4000 },
  focalLengthMm: 60,
  pupilMagnification: 1,
  fNumber: null,
  lensDistanceMm: null,
  fieldCurvatureMm: 0,
};
const known = { camera: CAMERA, focalLengthMm: null, widthPx: 6000, heightPx: 4000, samplingPpi: 508 };

test("sampling and the sensor's pixels tell the scale: 508 ppi is 20 px/mm, and pixels of 6 µm draw it at 0.12", () => {
  expect(lensOfCapture(known)).toEqual({ focalLengthMm: 60, magnification: expect.closeTo(0.12, 12), pupilMagnification: 1 });
  // held upright, and with the few rows more that another program keeps
  expect(lensOfCapture({ ...known, widthPx: 4016, heightPx: 6020 })?.magnification).toBeCloseTo(0.12, 12);
});

test("the file's own focal length counts before that of the set-up", () => {
  expect(lensOfCapture({ ...known, focalLengthMm: 85 })?.focalLengthMm).toBe(85);
});

test("a file that was made smaller does not tell the scale; the distance of the set-up does where it is said", () => {
  const smaller = { ...known, widthPx: 3000, heightPx: 2000 };
  expect(lensOfCapture(smaller)).toBeNull();
  expect(lensOfCapture({ ...known, samplingPpi: null })).toBeNull();
  // f / (D − f) = 60 / 300
  expect(lensOfCapture({ ...smaller, camera: { ...CAMERA, lensDistanceMm: 360 } })?.magnification).toBeCloseTo(0.2, 12);
  expect(lensOfCapture({ ...known, camera: null })).toBeNull();
});

test("the entrance pupil stands f (1/m + 1/P) from the print: with P = 1 where the thin lens stands, f (1 + 1/m)", () => {
  expect(pupilDistanceMm(60, 0.25, 1)).toBe(300);
  expect(pupilDistanceMm(60, 0.25, 0.5)).toBe(360);
});
