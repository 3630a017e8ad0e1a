import { expect, test } from "vitest";
import { CURVE_POINTS, lightnessShares, toneCurve } from "#domain/comparison/tones.ts";
import { linearToSrgb, srgbToLinear } from "#domain/measure/colour/srgb.ts";
import { random } from "../../fixtures/picture-scenes.ts";

const all = Int32Array.from({ length: 10_000 }, (_, at) => at);
const scene = Float32Array.from(all, (at) => 0.01 + 0.6 * random(at, 1, 3) ** 2);
const plane = (data: Float32Array) => ({ width: 100, height: 100, data });

test("a capture half as bright is brought to the other's tones, glare on a tenth of it or not", () => {
  const darker = scene.map((light, at) => (at % 10 === 0 ? 0.9 : light / 2));
  const curve = toneCurve(plane(darker), plane(scene), all) ?? [];
  expect(curve).toHaveLength(CURVE_POINTS);
  for (const code of [0.25, 0.375, 0.5]) {
    const expected = linearToSrgb(Math.min(1, 2 * srgbToLinear(code)));
    expect(curve[Math.round(code * (CURVE_POINTS - 1))]).toBeCloseTo(expected, 1.5);
  }
  for (let index = 1; index < curve.length; index++) expect(curve[index]).toBeGreaterThanOrEqual(curve[index - 1] as number);
});

test("of too few places there is no curve", () => {
  expect(toneCurve(plane(scene), plane(scene), all.subarray(0, 100))).toBeNull();
  expect(toneCurve(plane(scene.map(() => 1)), plane(scene), all)).toBeNull();
});

test("a histogram counts each place once, at its L*", () => {
  // L* 50 is a luminance of 0.1842 (CIE 15), L* 0 of none, L* 100 of the white
  const shares = lightnessShares(plane(Float32Array.from([0, 0.185, 0.185, 1])), Int32Array.from([0, 1, 2, 3]));
  expect(shares).toHaveLength(50);
  expect([shares[0], shares[25], shares[49]]).toEqual([0.25, 0.5, 0.25]);
});
