import { expect, test } from "vitest";
import { PRESERVATION_MASTER_LIMITS } from "#domain/aim/preservation-master.ts";
import { arrangementInput } from "#domain/plan/arrangement.ts";
import { askedOf } from "#domain/plan/asked.ts";
import { planCapture } from "#domain/plan/plan-capture.ts";
import { workedOut } from "#domain/plan/worked-out.ts";

const CAMERA = { sensorWidthMm: "36", sensorHeightMm: "24", sensorWidthPx: "6000", sensorHeightPx: "4000", focalLengthMm: "60" };
const LAMPS = { lampCount: "2", lampElevationDegrees: "45", lampDistanceMm: "400", lampWidthMm: "200" };

function steps(typed: Record<string, string>) {
  const arrangement = arrangementInput.parse(typed);
  const [plan] = planCapture(arrangement, {
    prints: [{ label: "A1", widthMm: 180, heightMm: 240 }],
    marginMm: 5,
    curlMm: 2,
    asked: askedOf(PRESERVATION_MASTER_LIMITS),
  }).sizes;
  if (!plan) throw new Error("The job has no print.");
  return workedOut(plan, arrangement);
}
const figure = (typed: Record<string, string>, what: string) => steps(typed).find((step) => step.what === what)?.here;

test("each figure is what its formula gives by hand: 190 mm on 24 mm at f/8 and EV 10, lamps at 45° and 400 mm", () => {
  const all = { ...CAMERA, ...LAMPS, fNumber: "8", ev100: "10", glass: "plain" };
  const m = 24 / 190;
  expect(figure(all, "Magnification")).toBeCloseTo(m, 12);
  expect(figure(all, "Sampling")).toBeCloseTo((25.4 * m) / 0.006, 9);
  expect(figure(all, "Print to lens")).toBeCloseTo(60 * (1 + 1 / m), 9);
  expect(figure(all, "Aperture as it works")).toBeCloseTo(8 * (1 + m), 12);
  const circleMm = (2 * 25.4 * m) / 600;
  expect(figure(all, "Depth of field")).toBeCloseTo((2 * 8 * circleMm * (1 / m + 1)) / m, 9);
  expect(figure(all, "Light on the print")).toBeCloseTo(2560, 9);
  expect(figure(all, "Exposure")).toBeCloseTo((8 * (1 + m)) ** 2 / 1024, 12);
  const slope = Math.atan(8 / 180);
  expect(figure(all, "Slope at the print's edge")).toBeCloseTo((slope * 180) / Math.PI, 9);
  const zone = 120 + 400 * Math.SQRT1_2 * Math.tan(Math.atan(120 / (60 * (1 + 1 / m))) + 2 * slope);
  expect(figure(all, "Family of angles at the lamps' height h")).toBeCloseTo(zone, 6);
  // 2 R / (1 + R), R = (0.52 / 2.52)²
  expect(figure(all, "Light that the glass throws back")).toBeCloseTo(8.168, 3);
  expect(figure(all, "One file")).toBe(144);
});

test("every step has formula, unit and source, and none stands there that did not count", () => {
  const all: Record<string, string> = { ...CAMERA, ...LAMPS, ev100: "10", glass: "coated", lensDistanceMm: "700" };
  for (const typed of [CAMERA, all, { scannerPpi: "600" }] as Record<string, string>[])
    for (const { formula, unit, source, here } of steps(typed)) {
      expect([formula, unit, source].every((text) => text.length > 0)).toBe(true);
      expect(Number.isFinite(here)).toBe(true);
    }
  const names = (typed: Record<string, string>) => steps(typed).map(({ what }) => what);
  expect(names({ scannerPpi: "600" })).toEqual(["Sampling", "The print's longer side", "One file"]);
  expect(names(CAMERA)).not.toContain("Exposure");
  expect(names(CAMERA)).not.toContain("Evenness");
  expect(names({ ...CAMERA, ...LAMPS })).toContain("Evenness");
});
