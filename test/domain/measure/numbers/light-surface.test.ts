import { expect, test } from "vitest";
import { fitLight } from "#domain/measure/numbers/light-surface.ts";

const PLACES = Array.from({ length: 900 }, (_, index) => ({ u: ((index % 30) * 2) / 29 - 1, v: (Math.floor(index / 30) * 2) / 29 - 1 }));
const U = PLACES.map(({ u }) => u);
const V = PLACES.map(({ v }) => v);
const light = (u: number, v: number) => Math.exp(-0.3 + 0.1 * u - 0.2 * v - 0.15 * u * u + 0.05 * u * v - 0.1 * v * v);

test("light of the second order is given back exactly, with no residual", () => {
  const found = fitLight(
    U,
    V,
    Float32Array.from(PLACES, ({ u, v }) => light(u, v)),
  );
  if (!found) throw new Error("no fit");
  expect(found.at(0.3, -0.7)).toBeCloseTo(light(0.3, -0.7), 5);
  expect(Math.max(...found.residuals.map(Math.abs))).toBeLessThan(1e-5);
});

test("dust and glare on a sixth of the places do not bend it", () => {
  const values = Float32Array.from(PLACES, ({ u, v }, index) => light(u, v) * (index % 12 === 0 ? 1.4 : index % 12 === 5 ? 0.6 : 1));
  const found = fitLight(U, V, values);
  if (!found) throw new Error("no fit");
  for (const { u, v } of PLACES) expect(Math.abs(found.at(u, v) / light(u, v) - 1)).toBeLessThan(0.002);
  expect(found.residuals[0]).toBeCloseTo(Math.log(1.4), 2);
});

test("places outside the trusted ones are judged but not fitted", () => {
  const values = Float32Array.from(PLACES, ({ u, v }) => light(u, v) * (u > 0 ? 1.5 : 1));
  const trusted = Int32Array.from(PLACES.flatMap(({ u }, index) => (u <= 0 ? [index] : [])));
  const found = fitLight(U, V, values, trusted);
  expect(found?.residuals[29]).toBeCloseTo(Math.log(1.5), 3);
});

test("places on one line fix no surface", () => {
  expect(
    fitLight(
      U,
      U.map(() => 0),
      new Float32Array(900).fill(0.5),
    ),
  ).toBeNull();
  expect(fitLight([], [], new Float32Array(0))).toBeNull();
});
