import { expect, test } from "vitest";
import { barrel } from "#domain/measure/geometry/barrel.ts";
import { barrelOfPair, bowsOf, lensFrom } from "#domain/measure/geometry/lens.ts";
import { borderCast } from "#domain/measure/light/border-cast.ts";
import { endsOf, type Side } from "#domain/measure/lines.ts";
import type { Quad } from "#domain/measure/picture.ts";
import type { MeasureContext, Reading } from "#domain/measure/reading.ts";
import { misregistration } from "#domain/measure/sharpness/misregistration.ts";
import { movementReading } from "#domain/measure/sharpness/movement.ts";
import type { PrintEdge } from "#domain/measure/sharpness/print-edges.ts";
import { resolution } from "#domain/measure/sharpness/resolution.ts";
import { sharpeningOf } from "#domain/measure/sharpness/sharpening.ts";
import { sharpeningLadder } from "../../accuracy/ladders/sharpening.ts";
import { type CapturedSheet, captureSheet } from "../../fixtures/captured-sheet.ts";
import { presentOf } from "../../fixtures/readings.ts";

// Every spread is one standard uncertainty: JCGM 100:2008, 2.3.1; of what lies within ± a with no place likelier, a / √3: 4.3.7.

const dark = captureSheet({ ppi: 130, turnDeg: 3, noise: 0.3, seed: 1733, ground: [0.02, 0.02, 0.02] });

const sharp = captureSheet({ blurPx: 1.2, turnDeg: 3, seed: 1734 });

test.each([
  ["misregistrationPx", 0.05, () => misregistration(dark.picture, dark.outline, dark.context)],
  ["borderCastA", 0.3, () => borderCast(dark.picture, dark.outline, dark.context)],
] as const)("%s is known within ± %d, and tells a √3rd of it", (name, within, read) => {
  expect(presentOf(read() as Reading[], name).spread).toBeCloseTo(within / Math.sqrt(3), 9);
});

test("clean edges give half contrast within 2 %, and tell a √3rd of it", () => {
  const { value, spread } = presentOf(resolution(sharp.picture, sharp.outline, sharp.context), "sfr50CyPerMm");
  expect(spread as number).toBeCloseTo((0.02 * value) / Math.sqrt(3), 9);
});

test("an overshoot is as unsure as the highest of ten places of its plateau, with 2 % of its height and what the sides differ by", () => {
  const edgeOf = (overshoot: number) => {
    const response = { overshoot, plateauSpread: 0.01, frequencies: [], modulation: [], sfr50: null, sfr10: null };
    return { refused: null, isClean: true, of: "sheet", direction: "across", response } as unknown as PrintEdge;
  };
  const read = (overshoots: number[]) => {
    const { reading } = sharpeningOf(overshoots.map(edgeOf), { fileKind: "tiff", fileClaims: null });
    return presentOf([reading], "sharpeningOvershootPercent");
  };
  expect(read([0.1]).value).toBeCloseTo(10, 9);
  expect(read([0.1]).spread).toBeCloseTo(Math.hypot(1.54, 0.59, 0.2), 2);
  // the mean of 8, 10 and 12 is as unsure as 2 / √3
  expect(read([0.08, 0.1, 0.12]).spread).toBeCloseTo(Math.hypot(1.54, 0.59, 0.2, 2 / Math.sqrt(3)), 2);
});

// the truth of the ladder is worked out along a line across the edge (test/accuracy/ladders/sharpening.ts)
test("an overshoot lies within twice what it tells of its uncertainty, none as well as a strong one", () => {
  for (const [level, seed] of [
    [0, 31],
    [0.25, 32],
    [2, 33],
  ] as const) {
    const { picture, outline, context } = sharpeningLadder.draw(level, seed) as CapturedSheet;
    const read = presentOf(resolution(picture, outline, context), "sharpeningOvershootPercent");
    const truth = sharpeningLadder.reads[0]?.truth?.(level, seed) as number;
    expect(Math.abs(read.value - truth)).toBeLessThan(2 * (read.spread as number));
  }
});

test("an edge that hardly overshoots is at most so in a TIFF too, where that holds JPEG data", () => {
  const response = { overshoot: 0.01, plateauSpread: 0.001, frequencies: [], modulation: [], sfr50: null, sfr10: null };
  const edge = { refused: null, isClean: true, of: "sheet", direction: "across", response } as unknown as PrintEdge;
  const read = (tiffCompression: number) =>
    sharpeningOf([edge], { fileKind: "tiff", fileClaims: { tiffCompression } as MeasureContext["fileClaims"] }).reading;
  expect(read(7)).toMatchObject({ value: 1, bound: "upper" });
  expect(read(1)).not.toHaveProperty("bound");
});

test("the bow of a print's sides is as unsure as the lens that was fitted to them, once", () => {
  const { picture, outline, context } = captureSheet({ ppi: 200, turnDeg: 1, noise: 0.5, seed: 1735 });
  const read = presentOf(barrel(picture, outline, context), "barrelPercent");
  const seen = read.detail?.bows as { side: Side; bowPx: number; spreadPx: number }[];
  const bows = seen.map((bow, index) => {
    const [from, to] = endsOf(
      (seen.findIndex(({ side }) => side === bow.side) === index ? outline.sheet : outline.image) as Quad,
      bow.side,
    );
    return { ...bow, from, to };
  });
  const unsure = lensFrom(bows, picture)?.spread ?? Number.NaN;
  expect(read.spread).toBeCloseTo(Math.abs(barrelOfPair(outline.sheet, bowsOf(outline.sheet, unsure, picture)).percent), 9);
});

test("no movement seen, where 0.3 mm could hide, is 0 with the root mean square of 0 to 0.3 as its spread", () => {
  const reading = movementReading(
    { share: { value: 0, spread: 0.01 }, sharp: 0.01, soft: 0.01, isAcross: true, leastShare: 0.1, degrees: 90 },
    "firm",
  );
  const { value, spread, detail } = presentOf([reading], "motionMm");
  expect(value).toBe(0);
  expect(spread as number).toBeCloseTo((detail?.leastSeenMm as number) / Math.sqrt(3), 9);
});
