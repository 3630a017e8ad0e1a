import { describe, expect, test } from "vitest";
import { fingerprintOf, likenessOf, turnedFingerprint } from "#domain/measure/likeness/fingerprint.ts";
import { likeliest, SHORTLIST, sameness, verdictOn } from "#domain/measure/likeness/likeness.ts";
import { type GridPlane, turnedBy } from "#domain/measure/planes/grid-plane.ts";
import { type DrawnGrid, drawGrid } from "../../../fixtures/print-grids.ts";

const picture = (options: DrawnGrid): GridPlane => {
  const { widthPx, heightPx, data } = drawGrid({ pxPerMm: 3, ...options });
  return { width: widthPx, height: heightPx, data };
};

const mirrored = ({ width, height, data }: GridPlane): GridPlane => ({
  width,
  height,
  data: data.map((_, at) => data[at - (at % width) + (width - 1 - (at % width))] as number),
});

/** A scene with something else in a quarter of it, moved to the left by so many px. */
function sat(scene: GridPlane, sitter: GridPlane, movedPx = 0): GridPlane {
  const { width, height } = scene;
  const radius = Math.sqrt((0.25 * width * height) / Math.PI);
  const data = scene.data.map((value, at) => {
    const [x, y] = [at % width, Math.floor(at / width)];
    const isInside = Math.hypot(x - width / 2, y - 0.55 * height) < radius;
    return isInside ? (sitter.data[y * width + Math.min(width - 1, x + movedPx)] as number) : value;
  });
  return { width, height, data };
}

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

test("strong glare, which changes a quarter of the picture, leaves a capture likelier than any other print", () => {
  for (const seed of [4104, 4109, 4120]) {
    const asked = picture({ seed, gamma: 0.8, glare: [{ xMm: 40, yMm: 30, sigmaMm: 8, peak: 0.9 }] });
    expect(SEEDS[likeliest(fingerprintOf(asked), prints, 1)[0]?.index ?? -1]).toBe(seed);
  }
});

test("of one print no more than two captures are among the likeliest, so that others are not crowded out", () => {
  const ten = Array.from({ length: 10 }, () => prints[3] as Float32Array);
  const isOf = (index: number) => (index < 10 ? "print" : index);
  const found = likeliest(prints[3] as Float32Array, [...ten, ...prints.slice(0, 3)], 4, isOf);
  expect(found.map(({ index }) => isOf(index)).filter((of) => of === "print")).toHaveLength(2);
  expect(found).toHaveLength(4);
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
    for (const { index, quarters } of likeliest(fingerprintOf(asked), prints, 8)) {
      const found = sameness(asked, shelf[index] as GridPlane, quarters);
      expect(found ? verdictOn(found) : "other", `${seed} and ${SEEDS[index]}`).toBe(SEEDS[index] === seed ? "same" : "other");
    }
  }
});

test("two frames of one scene, in which somebody moved or changed, are for a person to look at, and captures of one frame are the same", () => {
  for (const seed of [4121, 4122]) {
    const otherwise = { gamma: 0.8, blurPx: 0.8, noise: 1, offMm: { x: 0.3, y: 0.2 } };
    const frame = sat(picture({ seed }), picture({ seed: seed + 100 }));
    const verdict = (other: GridPlane) => {
      const found = sameness(frame, other, 0);
      return found && verdictOn(found);
    };
    const [room, sitter] = [picture({ seed, ...otherwise }), picture({ seed: seed + 100, ...otherwise })];
    expect(verdict(sat(room, sitter))).toBe("same");
    expect(verdict(sat(room, sitter, 6))).toBe("perhaps");
    expect(verdict(sat(room, picture({ seed: seed + 200 })))).toBe("perhaps");
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
