import { differenceCiede2000, lab, lrgb } from "culori";
import { Matrix, SingularValueDecomposition, solve as solveByLibrary } from "ml-matrix";
import { medianAbsoluteDeviation, median as medianByLibrary, sampleRankCorrelation } from "simple-statistics";
import { expect, test } from "vitest";
import { ciede2000 } from "#domain/measure/colour/ciede2000.ts";
import { type Lab, labOf } from "#domain/measure/colour/lab.ts";
import { SRGB_TO_XYZ_D50, srgbToLinear } from "#domain/measure/colour/srgb.ts";
import { homographyFromMm, project, scaleAt } from "#domain/measure/homography.ts";
import { solve } from "#domain/measure/numbers/least-squares.ts";
import { median, robustSpread } from "#domain/measure/numbers/robust.ts";
import { rankCorrelation } from "../accuracy/statistics.ts";
import { random } from "../fixtures/picture-scenes.ts";

// The program's own sums against libraries that other people wrote: one for colour, one for matrices, one for statistics.

const many = Array.from({ length: 200 }, (_, index) => index);
const rgbOf = (index: number) =>
  [1, 2, 3].map((channel) => Math.floor(256 * random(index, channel, 601)) / 255) as [number, number, number];

function ownLab(rgb: readonly [number, number, number]): Lab {
  const linear = rgb.map(srgbToLinear);
  const row = (at: number) => linear.reduce((sum, value, k) => sum + value * (SRGB_TO_XYZ_D50[at + k] as number), 0);
  return labOf(row(0), row(3), row(6));
}

test("sRGB codes become linear light and L*a*b* (D50) as culori makes them", () => {
  for (const index of many) {
    const [r, g, b] = rgbOf(index);
    const colour = { mode: "rgb", r, g, b } as const;
    const light = lrgb(colour);
    [light.r, light.g, light.b].forEach((value, k) => {
      expect(srgbToLinear([r, g, b][k] as number)).toBeCloseTo(value, 9);
    });
    const theirs = lab(colour);
    const [lightness, a, bStar] = ownLab([r, g, b]);
    // both round the matrix and the white of D50 to about five digits, each in its own way
    expect(Math.abs(lightness - theirs.l)).toBeLessThan(0.02);
    expect(Math.abs(a - theirs.a)).toBeLessThan(0.03);
    expect(Math.abs(bStar - theirs.b)).toBeLessThan(0.03);
  }
});

test("CIEDE2000 differs from culori's by less than a hundred-thousandth", () => {
  const difference = differenceCiede2000();
  for (const index of many) {
    const one = ownLab(rgbOf(index));
    const other = one.map((value, k) => value + 6 * (random(index, k, 602) - 0.5)) as unknown as Lab;
    // culori reckons on the white of D65, and would turn colours of D50 into it first; the formula knows no white
    const asLab = ([l, a, b]: Lab) => ({ mode: "lab65", l, a, b }) as const;
    expect(ciede2000(one, other)).toBeCloseTo(difference(asLab(one), asLab(other)), 5);
  }
});

test("the map from a print's mm to px is the one that ml-matrix finds from its four corners by singular values", () => {
  for (const index of many.slice(0, 40)) {
    const jitter = (k: number) => 120 * (random(index, k, 603) - 0.5);
    const quad = {
      topLeft: { x: 100 + jitter(1), y: 120 + jitter(2) },
      topRight: { x: 900 + jitter(3), y: 90 + jitter(4) },
      bottomRight: { x: 930 + jitter(5), y: 1000 + jitter(6) },
      bottomLeft: { x: 80 + jitter(7), y: 1040 + jitter(8) },
    };
    const [widthMm, heightMm] = [88, 107];
    const places = [
      [0, 0, quad.topLeft],
      [widthMm, 0, quad.topRight],
      [widthMm, heightMm, quad.bottomRight],
      [0, heightMm, quad.bottomLeft],
    ] as const;
    const rows = places.flatMap(([x, y, to]) => [
      [x, y, 1, 0, 0, 0, -to.x * x, -to.x * y, -to.x],
      [0, 0, 0, x, y, 1, -to.y * x, -to.y * y, -to.y],
    ]);
    // the ninth row of noughts makes the matrix square, so that the vector of the smallest singular value is there
    const { rightSingularVectors } = new SingularValueDecomposition(new Matrix([...rows, new Array<number>(9).fill(0)]));
    const theirs = new Matrix([
      rightSingularVectors.getColumn(8).slice(0, 3),
      rightSingularVectors.getColumn(8).slice(3, 6),
      rightSingularVectors.getColumn(8).slice(6, 9),
    ]);
    const map = homographyFromMm(widthMm, heightMm, quad);
    const at = (x: number, y: number) => {
      const [px, py, w] = theirs.mmul(Matrix.columnVector([x, y, 1])).getColumn(0) as [number, number, number];
      return { x: px / w, y: py / w };
    };
    const [x, y] = [widthMm * random(index, 9, 603), heightMm * random(index, 10, 603)];
    expect(Math.hypot(project(map, x, y).x - at(x, y).x, project(map, x, y).y - at(x, y).y)).toBeLessThan(1e-5);
    const step = 1e-3;
    const alongX = Math.hypot(at(x + step, y).x - at(x - step, y).x, at(x + step, y).y - at(x - step, y).y) / (2 * step);
    expect(Math.abs(scaleAt(map, x, y).alongX / alongX - 1)).toBeLessThan(1e-4);
  }
});

test("small systems of equations have the solution that ml-matrix gives them", () => {
  for (const index of many.slice(0, 40)) {
    const n = 2 + (index % 7);
    const matrix = Array.from({ length: n * n }, (_, at) => random(index, at, 604) - 0.5 + (at % (n + 1) === 0 ? 1 : 0));
    const right = Array.from({ length: n }, (_, at) => random(index, at, 605));
    const theirs = solveByLibrary(Matrix.from1DArray(n, n, matrix), Matrix.columnVector(right)).getColumn(0);
    solve(matrix, right)?.forEach((value, at) => {
      expect(value).toBeCloseTo(theirs[at] as number, 8);
    });
    expect(solve(matrix, right)).toHaveLength(n);
  }
});

test("median, median absolute deviation and rank correlation are those of simple-statistics", () => {
  for (const index of many.slice(0, 60)) {
    const values = Array.from({ length: 3 + index }, (_, at) => random(index, at, 606) ** 2);
    expect(median(values)).toBeCloseTo(medianByLibrary(values), 12);
    expect(robustSpread(values)).toBeCloseTo(1.4826 * medianAbsoluteDeviation(values), 12);
    const pairs = values.map((value, at) => [value, value + random(index, at, 607)] as const);
    const theirs = sampleRankCorrelation(
      pairs.map(([one]) => one),
      pairs.map(([, other]) => other),
    );
    expect(rankCorrelation(pairs)).toBeCloseTo(theirs, 9);
  }
});
