import sharp from "sharp";
import { expect, test } from "vitest";
import { srgbToLinear } from "#domain/measure/colour/srgb.ts";
import { resized } from "#domain/measure/planes/grid-plane.ts";
import { findFringes } from "#domain/measure/surface/fringe-search.ts";
import { ringLight } from "../fixtures/defects/interference.ts";

const RINGS = new URL("../fixtures/interference-rings/rings03-small.jpg", import.meta.url).pathname;

/** Distances at which the drawn light is darkest, mm. */
function darkRings(radiusMm: number, wavelengthNm: number, untilMm: number): number[] {
  const step = 0.001;
  const light = (r: number) => ringLight(r, radiusMm, wavelengthNm, 0.1);
  return Array.from({ length: Math.floor(untilMm / step) }, (_, k) => (k + 1) * step).filter(
    (r) => light(r) < light(r - step) && light(r) <= light(r + step),
  );
}

test("Walker, Fundamentals of Physics (from memory): in light of 648 nm and R = 31.3 m the 12th dark ring lies at 15.6 mm", () => {
  expect(darkRings(31_300, 648, 16)[11]).toBeCloseTo(15.6, 1);
});

test("r² = m λ R (any textbook of optics): the drawn dark rings lie there, and the middle is dark", () => {
  expect(ringLight(0, 31_300, 550, 0.1)).toBeCloseTo(0.9, 9);
  darkRings(31_300, 550, 14).forEach((r, index) => {
    expect(r).toBeCloseTo(Math.sqrt((index + 1) * 550e-6 * 31_300), 2);
  });
});

test("rings photographed in sodium light turn round their middle and crowd outwards", async () => {
  const { data, info } = await sharp(RINGS).toColourspace("b-w").raw().toBuffer({ resolveWithObject: true });
  const light = Float32Array.from({ length: info.width * info.height }, (_, at) =>
    Math.log(0.004 + srgbToLinear((data[at * info.channels] as number) / 255)),
  );
  // as if the field of view were 90 mm wide, two and a half px a mm
  const plane = resized({ width: info.width, height: info.height, data: light }, 225, Math.round((225 * info.height) / info.width));
  const fringes = findFringes(plane, 2.5);
  expect(fringes?.areaMm2).toBeGreaterThan(100);
  expect(fringes?.turn).toBeGreaterThan(0.5);
  expect((fringes?.periodsMm[2] ?? 0) / (fringes?.periodsMm[0] ?? 1)).toBeGreaterThan(1.3);
});
