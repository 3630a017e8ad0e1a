import { expect, test } from "vitest";
import { MEASURE_NAMES, type MeasureName } from "#domain/measure/catalogue.ts";
import { evennessLadder } from "./ladders/evenness.ts";
import { windowOverBorderLadder } from "./ladders/glare.ts";
import { TOGETHER_LADDERS } from "./ladders/together.ts";
import { LADDERS } from "./ladders.ts";
import { allTasks } from "./tasks.ts";
import { OF_OTHER_LADDERS, WITHOUT_LADDER } from "./without-ladder.ts";

test("every measure has a ladder, or a reason why it has none", () => {
  const read = new Set<MeasureName>([
    ...LADDERS.flatMap(({ reads }) => reads.map(({ measure }) => measure)),
    ...TOGETHER_LADDERS.map(({ measure }) => measure),
    ...OF_OTHER_LADDERS,
  ]);
  expect(MEASURE_NAMES.filter((name) => !read.has(name)).toSorted()).toEqual(Object.keys(WITHOUT_LADDER).toSorted());
});

test("no two pieces of a run are called alike, since their answers are kept by that name", () => {
  const names = allTasks([1, 2]).map(({ name }) => name);
  expect(new Set(names).size).toBe(names.length);
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

// By hand: of a step of light by d at the middle the spread is d/2 over the mean; of a line from 1 to 1 - d it is d/√12 over it.
test("the truth of uneven lightness lies between that of a line across the sheet and that of its two sides", () => {
  const truthOf = (level: number) => evennessLadder.reads[1]?.truth(level, 1) as number;
  expect(truthOf(0)).toBeCloseTo(0);
  const [bright, dark] = [0.79, 0.79 * 0.9].map((y) => 116 * Math.cbrt(y) - 16) as [number, number];
  const [mean, lost] = [(bright + dark) / 2, bright - dark];
  expect(truthOf(10)).toBeGreaterThan((100 * lost) / Math.sqrt(12) / mean);
  expect(truthOf(10)).toBeLessThan((100 * lost) / 2 / mean);
});

test("the truth of glare on the border is the border's part of the window, and none where nothing shines", () => {
  const truthOf = (level: number) => windowOverBorderLadder.reads[2]?.truth(level, 1) as number;
  expect(truthOf(0)).toBe(0);
  // by hand: half of a window of 1 % of 44 × 52 mm, which reaches no farther than the sheet, lies above the picture's edge at 5 mm
  expect(truthOf(1)).toBeCloseTo((100 * 0.5 * 0.01 * 44 * 52) / (44 * 52 - 34 * 38), 1);
});
