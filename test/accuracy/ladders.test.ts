import { expect, test } from "vitest";
import { MEASURE_NAMES, type MeasureName } from "#domain/measure/catalogue.ts";
import { TOGETHER_LADDERS } from "./ladders/together.ts";
import { LADDERS } from "./ladders.ts";

/** Measures that no ladder of these lists reads, and why. */
const WITHOUT: Partial<Record<MeasureName, string>> = {
  borderGlarePercent: "what the border gives to glareAreaPercent, which has ladders",
  borderLightnessSpreadPercent: "one number of the same surface as evennessPercent, whose ladder is climbed",
  detailCyPerMm: "its ladder is climbed on drawn fine detail (ladders/detail.ts)",
  lossless: "a fact of the file, yes or no",
  processingSignCount: "a count of signs, each yes or no",
  savedAgainCount: "its ladder is one of edits (ladders/copies.ts)",
};

test("every measure has a ladder, or a reason why it has none", () => {
  const read = new Set<MeasureName>([
    ...LADDERS.flatMap(({ reads }) => reads.map(({ measure }) => measure)),
    ...TOGETHER_LADDERS.map(({ measure }) => measure),
  ]);
  expect(MEASURE_NAMES.filter((name) => !read.has(name)).toSorted()).toEqual(Object.keys(WITHOUT).toSorted());
});

test("no two ladders are called alike, since their tables are kept by that name", () => {
  const headings = LADDERS.flatMap(({ defect, reads }) => reads.map(({ measure }) => `${defect}: ${measure}`));
  expect(new Set(headings).size).toBe(headings.length);
});

test("every ladder has a truth at its strongest level for what it reads, but where no figure can be true", () => {
  const noFigure = LADDERS.flatMap(({ defect, levels, reads }) =>
    reads.filter(({ truth }) => Number.isNaN(truth(levels.at(-1) as number, 77))).map(({ measure }) => `${measure}: ${defect}`),
  );
  expect(noFigure).toEqual([
    "doubleSaveSigma: saved as JPEG before, ever more coarsely",
    "ringAreaPercent: interference rings, plain picture",
    "ringAreaPercent: interference rings, detailed picture",
  ]);
});

// By hand: of a blur far wider than a pixel the aperture is nothing, exp(-2 π² σ² f²) = 1/2 at f = 0.18739 / σ.
test("the truth of a blurred edge nears that of its Gaussian alone, and lies below it by the pixel's aperture", () => {
  const truthOf = (blurPx: number) => LADDERS.find(({ defect }) => defect === "lens that blurs")?.reads[0]?.truth(blurPx, 1) as number;
  const gaussian = (blurPx: number) => (0.18739 / blurPx) * (200 / 25.4);
  expect(truthOf(6) / gaussian(6)).toBeCloseTo(1, 2);
  // the aperture's variance, 1/12 less what lies between three places, adds to the blur's
  const [places, blurPx] = [3, 1.2];
  const whole = Math.sqrt(blurPx ** 2 + (1 - 1 / places ** 2) / 12);
  expect(truthOf(blurPx) / gaussian(whole)).toBeCloseTo(1, 2);
});
