import { expect, test } from "vitest";
import { misregistration } from "#domain/measure/sharpness/misregistration.ts";
import { type CapturedSheet, captureSheet, SMALL } from "../../../fixtures/captured-sheet.ts";
import { colourShift, lateralColour } from "../../../fixtures/defects/colour-shift.ts";
import { contextOf, pictureOf, SIDES } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

const read = ({ picture, outline, context }: CapturedSheet) => presentOf(misregistration(picture, outline, context), "misregistrationPx");
/** Coarsely sampled, so that it is quick to draw. */
const sheetOf = (options: Parameters<typeof captureSheet>[0]) => captureSheet({ ppi: 130, ...options });
const GROUND = [0.02, 0.02, 0.02] as const;

test.each([
  [0, 0],
  [0.2, 3],
  [0.5, 0],
  [0.5, 0.7],
  [1, 8],
])("red moved by %d px across, at a lean of %d degrees and with noise, reads within 0.05 px", (shift, turnDeg) => {
  const value = read(sheetOf({ defects: [colourShift({ x: shift, y: 0 })], turnDeg, noise: 1, ground: GROUND, seed: 401 })).value;
  expect(Math.abs(value - shift)).toBeLessThan(0.05);
});

test("a file of greys has no channels to lie apart: absent, with what would tell, and never nought", () => {
  const { picture, outline, context } = sheetOf({ ground: GROUND, seed: 404 });
  const grey = { ...picture, codes: picture.codes.map((_, at, codes) => codes[3 * Math.floor(at / 3) + 1] as number) };
  expect(reasonOf(misregistration(grey, outline, context), "misregistrationPx")).toBe(
    "the file holds greys only; a capture in colour would tell",
  );
  // a single pixel with a colour makes it a file in colour
  grey.codes[0] = (grey.codes[0] as number) ^ 1;
  expect(presentOf(misregistration(grey, outline, context), "misregistrationPx").value).toBeLessThan(0.01);
});

// Of a way (x, y) the sides of a sheet turned by a see x cos a + y sin a and y cos a - x sin a across them.
test("a shift aslant reads as the larger of its ways across the sides, and two channels moved apart as the way between them", () => {
  const aslant = read(sheetOf({ defects: [colourShift({ x: 0.3, y: -0.4 })], turnDeg: 0.5, seed: 402 }));
  expect(Math.abs(aslant.value - 0.4)).toBeLessThan(0.05);
  expect(aslant.detail).toMatchObject({
    acrossPx: expect.closeTo(0.3, 1),
    downPx: expect.closeTo(0.4, 1),
    joinedPx: expect.closeTo(0.5, 1),
  });
  const apart = read(sheetOf({ defects: [colourShift({ x: 0.3, y: 0 }, { x: -0.4, y: 0 })], seed: 403 }));
  expect(Math.abs(apart.value - 0.7)).toBeLessThan(0.05);
});

test("an offset and the lateral colour of a lens are told apart, with their directions", () => {
  const offset = read(sheetOf({ defects: [colourShift({ x: 0.4, y: 0.2 })], turnDeg: 2, seed: 404 })).detail;
  expect(offset).toMatchObject({
    offset: { redAcrossPx: expect.closeTo(0.4, 1), redDownPx: expect.closeTo(0.2, 1), blueAcrossPx: expect.closeTo(0, 1) },
    lateralColour: { redAcrossPx: expect.closeTo(0, 1) },
  });
  const sheet = sheetOf({ defects: [lateralColour(1)], turnDeg: 2, seed: 405 });
  const middle = (sheet.picture.widthPx - 1) / 2;
  const atSide = (middle - sheet.truth.sheet.topLeft.x) / middle;
  expect(read(sheet).detail).toMatchObject({
    offset: { redAcrossPx: expect.closeTo(0, 1) },
    lateralColour: { redAcrossPx: expect.closeTo(atSide, 1) },
  });
});

test.each([
  ["yellow paper", { print: { ...SMALL, paper: [0.8, 0.72, 0.45] as const } }],
  ["a blue ground", { ground: [0.02, 0.03, 0.08] as const }],
  ["uneven light", { light: { fallOff: 0.3, across: 0.2 } }],
  ["tinted light", { cast: [1, 0.9, 0.6] as [number, number, number] }],
  ["a soft capture", { blurPx: 1.6 }],
])("%s is no misregistration", (_, options) => {
  expect(read(sheetOf({ ...options, noise: 0.6, seed: 406 })).value).toBeLessThan(0.06);
});

// A shadow takes more light from a channel in which the ground is lighter, and its edge then seems to lie further out.
const onGround = (ground: readonly [number, number, number], widthPx: number) => {
  const { picture, outline, context } = sheetOf({ ground, shadow: { depth: 0.4, widthPx, sides: SIDES }, noise: 0.6, seed: 410 });
  return misregistration(picture, outline, context);
};

test.each([6, 10, 16])("the shadow that a print throws on red cloth, %d px wide, is refused for its colour", (widthPx) => {
  expect(reasonOf(onGround([0.24, 0.06, 0.05], widthPx), "misregistrationPx")).toContain(
    "a shadow or a line beside it has a colour of its own",
  );
});

test.each([6, 10, 16])("on a dark brown table, %d px wide, it is no misregistration", (widthPx) => {
  expect(presentOf(onGround([0.05, 0.03, 0.02], widthPx), "misregistrationPx").value).toBeLessThan(0.1);
});

test("on a light ground, with a clipped border or without any side it is absent, and what would tell is said", () => {
  const reason = ({ picture, outline, context }: CapturedSheet) =>
    reasonOf(misregistration(picture, outline, context), "misregistrationPx");
  expect(reason(sheetOf({ background: "white-lid", seed: 407 }))).toContain("dark, plain ground");
  expect(reason(sheetOf({ cast: [2, 2, 2], seed: 408 }))).toContain("clipped");
  const sides = { top: "assumed", right: "assumed", bottom: "assumed", left: "assumed" } as const;
  expect(reason(sheetOf({ outline: { sides }, seed: 409 }))).toContain("not seen as an edge");
  expect(reasonOf(misregistration(pictureOf(new Uint8Array(3), 1, 1), null, contextOf()), "misregistrationPx")).toContain("not found");
});

test("a picture to its edge, darker than the ground that it lies on, shows no edge of paper", () => {
  const dark = sheetOf({ print: { widthMm: 44, heightMm: 52, content: "night" }, ground: [0.62, 0.61, 0.58], noise: 0.5, seed: 411 });
  expect(reasonOf(misregistration(dark.picture, { ...dark.outline, image: null }, dark.context), "misregistrationPx")).toContain(
    "ground beside it is not dark enough",
  );
});

test("read in one direction only it is a lower bound", () => {
  const sides = { top: "cut-off", right: "seen", bottom: "cut-off", left: "seen" } as const;
  const one = read(sheetOf({ defects: [colourShift({ x: 0.5, y: 0.5 })], outline: { sides }, seed: 410 }));
  expect(one).toMatchObject({ bound: "lower", reliability: "fair", note: expect.stringContaining("across the frame only") });
  expect(Math.abs(one.value - 0.5)).toBeLessThan(0.06);
});
