import { expect, test } from "vitest";
import { darkInVeils } from "#domain/measure/light/dark-in-veil.ts";
import type { GridPlane } from "#domain/measure/planes/grid-plane.ts";
import { random } from "../../../fixtures/picture-scenes.ts";

const [WIDTH, HEIGHT, MARGIN] = [150, 170, 6];
type LightAt = (x: number, y: number, print: number) => number;

/** A print of many tones from 0.02 to 0.7 in blocks of 7 places, as a capture sees it. */
function plane(seed: number, lightAt: LightAt): GridPlane {
  const data = Float32Array.from({ length: WIDTH * HEIGHT }, (_, at) => {
    const [x, y] = [at % WIDTH, Math.floor(at / WIDTH)];
    const print = 0.02 + 0.68 * random(Math.floor(x / 7), Math.floor(y / 7), seed) ** 2;
    return lightAt(x, y, print);
  });
  return { width: WIDTH, height: HEIGHT, data };
}
const clear: LightAt = (_x, _y, print) => print;
const isHand = (x: number, y: number) => Math.hypot((x - 70) / 1.4, y - 90) < 26;
/** of all places: an ellipse of 36.4 × 26 */
const HAND = (Math.PI * 26 * 26 * 1.4) / ((WIDTH - 2 * MARGIN) * (HEIGHT - 2 * MARGIN));
const veiled =
  (veil: number, left = 0): LightAt =>
  (x, y, print) =>
    print + (isHand(x, y) ? left : veil);

test.each([0.03, 0.1, 0.4])("a hand in a veil of %d is found as light that is missing there, of two captures and of three", (veil) => {
  for (const seed of [1, 2, 3])
    for (const clearOnes of [1, 2]) {
      const planes = [plane(seed, veiled(veil)), ...Array.from({ length: clearOnes }, () => plane(seed, clear))];
      const [dark, ...others] = darkInVeils(planes, MARGIN);
      expect(others.every((other) => other === null)).toBe(true);
      expect(dark?.veil).toBeCloseTo(veil, 2);
      expect(dark?.missingShare).toBeCloseTo(1, 1);
      const share =
        (dark?.mask ?? new Uint8Array(0)).reduce((sum, value) => sum + value, 0) / ((WIDTH - 2 * MARGIN) * (HEIGHT - 2 * MARGIN));
      expect(Math.abs(share / HAND - 1)).toBeLessThan(0.05);
    }
});

test("how much of the veil is missing is read too", () => {
  const [dark] = darkInVeils([plane(4, veiled(0.1, 0.05)), plane(4, clear)], MARGIN);
  expect(dark?.missingShare).toBeCloseTo(0.5, 1);
});

test("a shadow under a veil takes of the print's own light, and is no dark shape in the veil", () => {
  const shaded: LightAt = (x, y, print) => print * (isHand(x, y) ? 0.5 : 1) + 0.1;
  for (const seed of [1, 2, 3]) expect(darkInVeils([plane(seed, shaded), plane(seed, clear)], MARGIN)[0]).toBeNull();
});

test("where more is missing than the veil has, the other capture shines, and nothing is dark", () => {
  const mirroring: LightAt = (x, y, print) => print + (isHand(x, y) ? 0.2 : 0);
  for (const seed of [8, 9])
    expect(darkInVeils([plane(seed, (_x, _y, print) => print + 0.03), plane(seed, mirroring)], MARGIN)).toEqual([null, null]);
});

test("without a veil, under an even one, beside a window and beside another tone curve nothing is told", () => {
  const window: LightAt = (x, y, print) => print + (Math.abs(x - 70) < 35 && Math.abs(y - 80) < 30 ? 0.2 : 0);
  const curved: LightAt = (_x, _y, print) => 0.9 * print ** 1.15;
  for (const seed of [5, 6])
    for (const one of [clear, window, curved, ((_x, _y, print) => print + 0.1) as LightAt])
      expect(darkInVeils([plane(seed, one), plane(seed, clear)], MARGIN)).toEqual([null, null]);
});

test("what a window leaves free along the picture's rim is no dark shape, as far as it goes round", () => {
  const wide: LightAt = (x, y, print) => print + (Math.abs(x - 75) < 60 && Math.abs(y - 85) < 68 ? 0.2 : 0);
  expect(darkInVeils([plane(7, wide), plane(7, clear)], MARGIN)[0]).toBeNull();
});
