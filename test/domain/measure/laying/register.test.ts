import { expect, test } from "vitest";
import { homographyFromMm, project } from "#domain/measure/homography.ts";
import { fineSource, type Place } from "#domain/measure/laying/fine-source.ts";
import { referenceTiles, register, registeredReference } from "#domain/measure/laying/register.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { captureFinePrint, drawFinePrint, type FineCapture } from "../../../fixtures/fine-captures.ts";

const GRID = { width: 480, height: 480, pxPerMm: 12 };
const print = drawFinePrint(311);
const A: FineCapture = { ppi: 300, blurMm: 0.06, noiseCodes: 3, noiseSeed: 1, turnDeg: 1, cornersOffMm: 0.1 };

function wayTo(quad: Quad) {
  const map = homographyFromMm(1, 1, quad);
  return (x: number, y: number, into: Place) => Object.assign(into, project(map, x, y));
}

const laidOn = (options: FineCapture) => {
  const drawn = captureFinePrint(print, options);
  return { drawn, fixed: { source: fineSource(drawn.picture, drawn.quad, 1), way: wayTo(drawn.quad) } };
};

test.each<[string, Partial<FineCapture>]>([
  ["keystone, another tone and corners found 0.15 mm off", { keystoneAcross: 0.06, turnDeg: 3, gamma: 1.3, gain: 0.7 }],
  ["barrel and curl, another sampling", { ppi: 400, barrel: 0.02, curlMm: 0.4 }],
])("captures with %s fall on each other within a tenth of a millimetre everywhere", (_, changed) => {
  const one = laidOn(A);
  const other = laidOn({ ...A, noiseSeed: 2, cornersOffMm: 0.15, ...changed });
  const reference = registeredReference(one.fixed.source, one.fixed.way, GRID);
  const found = register(referenceTiles(one.fixed.source, one.fixed.way, GRID), other.fixed, GRID);
  if (!found) throw new Error("not registered");
  const errors: number[] = [];
  const [here, there]: [Place, Place] = [
    { x: 0, y: 0 },
    { x: 0, y: 0 },
  ];
  for (let y = 4; y < GRID.height; y += 24) {
    for (let x = 4; x < GRID.width; x += 24) {
      reference.placeOf(x, y, here);
      found.placeOf(x, y, there);
      const [a, b] = [one.drawn.mmAt(here.x, here.y), other.drawn.mmAt(there.x, there.y)];
      errors.push(Math.hypot(a.x - b.x, a.y - b.y));
    }
  }
  errors.sort((a, b) => a - b);
  expect(errors[errors.length >> 1]).toBeLessThan(0.01);
  expect(errors.at(-1)).toBeLessThan(0.1);
  expect(found.residualPx).toBeLessThan(0.2);
});

test("a picture that shows something else does not fall on this one, whatever is tried", () => {
  const one = laidOn(A);
  const upsideDown = laidOn({ ...A, noiseSeed: 2, quarters: 2 });
  expect(register(referenceTiles(one.fixed.source, one.fixed.way, GRID), upsideDown.fixed, GRID)).toBeNull();
});
