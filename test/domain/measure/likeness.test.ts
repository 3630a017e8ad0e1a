import { describe, expect, test } from "vitest";
import { fingerprintOf, likenessOf, turnedFingerprint } from "#domain/measure/fingerprint.ts";
import { type GridPlane, turnedBy } from "#domain/measure/grid-plane.ts";
import { likeliest, SHORTLIST, sameness, verdictOn } from "#domain/measure/likeness.ts";
import { type DrawnGrid, drawGrid } from "../../fixtures/print-grids.ts";

const picture = (options: DrawnGrid): GridPlane => {
  const { widthPx, heightPx, data } = drawGrid({ pxPerMm: 3, ...options });
  return { width: widthPx, height: heightPx, data };
};

const mirrored = ({ width, height, data }: GridPlane): GridPlane => ({
  width,
  height,
  data: data.map((_, at) => data[at - (at % width) + (width - 1 - (at % width))] as number),
});

/** Captures of one print that differ as captures do; seeds of the contents are used nowhere else. */
const CAPTURES: readonly (readonly [string, DrawnGrid])[] = [
  ["brighter, with another tone curve", { gamma: 0.7 }],
  ["in uneven light", { light: { fallOff: 0.4, across: 0.5 } }],
  ["blurred and noisy", { blurPx: 1.5, noise: 2 }],
  ["with glare", { glare: [{ xMm: 20, yMm: 15, sigmaMm: 6, peak: 0.5 }] }],
  ["with its outline found 0.8 mm off and turned", { offMm: { x: 0.8, y: -0.6 }, offDeg: 0.7 }],
  ["turned by a quarter", { quarters: 1 }],
  ["turned by three quarters, in another light", { quarters: 3, gamma: 1.3, light: { across: -0.4 } }],
];

const SEEDS = Array.from({ length: 24 }, (_, index) => 4100 + index);
const shelf = SEEDS.map((seed) => picture({ seed, gamma: 0.9 }));
const prints = shelf.map(fingerprintOf);

test.each([1, 2, 3])("a fingerprint turned by %i quarters is that of the turned picture", (quarters) => {
  const plane = shelf[0] as GridPlane;
  expect(likenessOf(fingerprintOf(turnedBy(plane, quarters)), turnedFingerprint(fingerprintOf(plane), quarters))).toBeCloseTo(1, 5);
});

describe.each(CAPTURES)("a capture %s", (_, differs) => {
  test.each([4103, 4117])("is known among others (print %i)", (seed) => {
    const asked = picture({ seed, ...differs });
    const [first] = likeliest(fingerprintOf(asked), prints, SHORTLIST);
    expect(SEEDS[first?.index ?? -1]).toBe(seed);
    const found = sameness(asked, shelf[first?.index ?? 0] as GridPlane, first?.quarters ?? 0);
    expect(found && verdictOn(found)).toBe("same");
  });
});

test("none of the others is taken for it, not even the likeliest", () => {
  for (const seed of [4101, 4111]) {
    const asked = picture({ seed, gamma: 1.2 });
    for (const { index, quarters } of likeliest(fingerprintOf(asked), prints, SHORTLIST)) {
      const found = sameness(asked, shelf[index] as GridPlane, quarters);
      expect(found ? verdictOn(found) : "other", `${seed} and ${SEEDS[index]}`).toBe(SEEDS[index] === seed ? "same" : "other");
    }
  }
});

test("a mirrored picture is never the same", () => {
  const asked = mirrored(picture({ seed: 4105 }));
  const verdicts = [0, 1, 2, 3]
    .map((quarters) => sameness(asked, shelf[5] as GridPlane, quarters))
    .map((found) => found && verdictOn(found));
  expect(verdicts).not.toContain("same");
  expect(verdicts).not.toContain("perhaps");
});

test("a plain picture is like nothing, and nothing breaks", () => {
  const plain = { width: 120, height: 100, data: new Float32Array(12_000).fill(0.4) };
  expect(likenessOf(fingerprintOf(plain), prints[0] as Float32Array)).toBe(0);
  expect(sameness(plain, shelf[0] as GridPlane, 0)).toBe(null);
});
