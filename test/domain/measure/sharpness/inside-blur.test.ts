import { expect, test } from "vitest";
import { type BlurPlace, fitBlur, varianceAt } from "#domain/measure/sharpness/blur-surface.ts";
import { insideBlur } from "#domain/measure/sharpness/inside-blur.ts";
import { LAST_RING, type TileRings } from "#domain/measure/sharpness/tile-rings.ts";
import { outlineOf, quad } from "../../../fixtures/outlines.ts";

const SHEET = outlineOf(quad(-0.5, -0.5, 399.5, 399.5));
const SIZE = { widthMm: 100, heightMm: 100 };
/** 16 px to the mm². */
const PX2_PER_MM2 = 16;

/** Tiles of content whose power falls like f^-fall, through a blur of so many px² at each place of the sheet (0 to 1). */
function tiles(variancePx2: (across: number, down: number) => number, { fall = 2.5, clearTo = LAST_RING } = {}): TileRings[] {
  return Array.from({ length: 49 }, (_, index) => {
    const [across, down] = [((index % 7) + 0.5) / 7, (Math.floor(index / 7) + 0.5) / 7];
    const rings = Array.from({ length: LAST_RING + 1 }, (_, k) => {
      const f = Math.max(1, k) / 64;
      // height and local contrast of each tile are its own
      const log = (index % 5) - fall * Math.log(f) - 4 * Math.PI ** 2 * f * f * variancePx2(across, down);
      return { along: 0, across: 0, log, isClear: k <= clearTo };
    });
    return { middle: { x: 400 * across - 0.5, y: 400 * down - 0.5 }, rings };
  });
}

test("a Gaussian blur of known variance comes back tile by tile, whatever the contrast of each", () => {
  const found = insideBlur(
    tiles((across) => 0.5 + across),
    1,
    SHEET,
    SIZE,
  );
  for (const { u, value } of found?.tiles ?? []) expect(value * PX2_PER_MM2).toBeCloseTo(0.5 + (u + 1) / 2, 6);
  expect(found?.terms.map((term) => term * PX2_PER_MM2)).toEqual([1, 0.5, 0, 0, 0, 0, 0].map((value) => expect.closeTo(value, 6)));
});

test("samples of two pixels count four times the area", () => {
  const [one, two] = [1, 2].map((stepPx) =>
    insideBlur(
      tiles(() => 0.7),
      stepPx,
      SHEET,
      SIZE,
    ),
  );
  expect((two?.level as number) / (one?.level as number)).toBeCloseTo(4, 6);
});

test("content that falls otherwise moves the level, not the slope", () => {
  const found = insideBlur(
    tiles((across) => 1 + across, { fall: 2 }),
    1,
    SHEET,
    SIZE,
  );
  expect((found?.terms[1] as number) * PX2_PER_MM2).toBeCloseTo(0.5, 6);
  expect((found?.terms[0] as number) * PX2_PER_MM2).not.toBeCloseTo(1.5, 1);
});

test("a hill of blur in the middle is told from a bent surface", () => {
  const found = insideBlur(
    tiles((across, down) => 0.5 + (1 - (2 * across - 1) ** 2) * (1 - (2 * down - 1) ** 2)),
    1,
    SHEET,
    SIZE,
  );
  expect((found?.terms[6] as number) * PX2_PER_MM2).toBeCloseTo(1, 5);
  expect((found?.terms[4] as number) * PX2_PER_MM2).toBeCloseTo(0, 5);
});

test("too little detail clear of noise tells nothing", () => {
  expect(
    insideBlur(
      tiles(() => 0.5, { clearTo: 12 }),
      1,
      SHEET,
      SIZE,
    ),
  ).toBeNull();
  expect(insideBlur(tiles(() => 0.5).slice(0, 19), 1, SHEET, SIZE)).toBeNull();
});

test("edges all round outweigh it, and where there are none it is what is left, less sure", () => {
  const inside = insideBlur(
    tiles((across) => 0.5 + across),
    1,
    SHEET,
    SIZE,
  );
  if (!inside) throw new Error("nothing inside");
  const along = [-0.7, 0, 0.7];
  const even: BlurPlace[] = along.flatMap((t) => [
    ...([-1, 1] as const).map((u): BlurPlace => ({ u, v: t, direction: "across", of: "sheet", variance: 0.06, spreadShare: 0.04 })),
    ...([-1, 1] as const).map((v): BlurPlace => ({ u: t, v, direction: "down", of: "sheet", variance: 0.06, spreadShare: 0.04 })),
  ]);
  const [joined, alone] = [fitBlur(even, inside), fitBlur([], inside)];
  if (!joined || !alone) throw new Error("no surface");
  const slope = (terms: readonly number[]) => terms[1] as number;
  expect(Math.abs(slope(joined.terms))).toBeLessThan(0.001);
  expect(slope(alone.terms) * PX2_PER_MM2).toBeCloseTo(0.5, 1);
  expect(alone.spreadOf(slope)).toBeGreaterThan(4 * joined.spreadOf(slope));
  expect(varianceAt(joined.terms, 1, 0)).toBeCloseTo(0.06, 3);
});
