import { describe, expect, test } from "vitest";
import { finestPxPerMm, partOfFrame } from "#domain/comparison/seen-in-frame.ts";
import { straightenedSheet } from "#domain/comparison/straightened-sheet.ts";
import { seenThroughLens, straightened } from "#domain/measure/geometry/lens.ts";
import type { Quad } from "#domain/measure/picture.ts";

const FRAME = { width: 1200, height: 900 };

const box = (left: number, top: number, right: number, bottom: number): Quad => ({
  topLeft: { x: left, y: top },
  topRight: { x: right, y: top },
  bottomRight: { x: right, y: bottom },
  bottomLeft: { x: left, y: bottom },
});

describe("a sheet straightened whole", () => {
  test("of 80 × 60 mm at 10 px a mm is 800 × 600 px, that is 254 ppi, each pixel where it was", () => {
    const made = straightenedSheet({ quad: box(99.5, 49.5, 899.5, 649.5), frame: FRAME, sheetMm: { widthMm: 80, heightMm: 60 } });
    expect(made).toMatchObject({ widthPx: 800, heightPx: 600, isReduced: false });
    expect(made.ppi).toBeCloseTo(254, 6);
    const into = { x: 0, y: 0 };
    made.placeOf(0.5 / made.pxPerUnit, 0.5 / made.pxPerUnit, into);
    expect(into.x).toBeCloseTo(100, 6);
    expect(into.y).toBeCloseTo(50, 6);
  });

  test("is as fine as the nearest side of a tilted one, so that the far side is not coarser than it was", () => {
    const tilted: Quad = {
      topLeft: { x: 150, y: 50 },
      topRight: { x: 850, y: 50 },
      bottomRight: { x: 950, y: 650 },
      bottomLeft: { x: 50, y: 650 },
    };
    const made = straightenedSheet({ quad: tilted, frame: FRAME, sheetMm: { widthMm: 80, heightMm: 60 } });
    // the near side of 900 px is 11.25 px a mm across, and finer still along the tilt
    expect(made.pxPerUnit).toBeGreaterThan(11);
    expect(made.pxPerUnit).toBeCloseTo(finestPxPerMm(made.placeOf, made.sheet), 9);
  });

  test("without a size has the proportions and the pixels in which it is seen", () => {
    expect(straightenedSheet({ quad: box(0, 0, 640, 480), frame: FRAME, sheetMm: null })).toMatchObject({
      widthPx: 640,
      heightPx: 480,
      ppi: null,
    });
  });

  test("that is more than can be held is made coarser, and says so", () => {
    const frame = { width: 20_000, height: 20_000 };
    const made = straightenedSheet({ quad: box(0, 0, 19_000, 19_000), frame, sheetMm: { widthMm: 400, heightMm: 400 } });
    expect(made.isReduced).toBe(true);
    expect(made.widthPx * made.heightPx).toBeLessThan(81e6);
  });

  test("that a lens bows is straight: the middle of its top is read where the lens shows it", () => {
    const radial = 5e-8;
    const size = { widthPx: FRAME.width, heightPx: FRAME.height };
    const asSeen = (x: number, y: number) => seenThroughLens({ x, y }, radial, size);
    const quad: Quad = {
      topLeft: asSeen(100, 60),
      topRight: asSeen(1100, 60),
      bottomRight: asSeen(1100, 810),
      bottomLeft: asSeen(100, 810),
    };
    const made = straightenedSheet({ quad, radial, frame: FRAME, sheetMm: { widthMm: 100, heightMm: 75 } });
    const into = { x: 0, y: 0 };
    made.placeOf(50, 0, into);
    expect(into.x).toBeCloseTo(asSeen(600, 60).x, 3);
    expect(into.y).toBeCloseTo(asSeen(600, 60).y, 3);
    // by its corners alone it would be read several px lower
    expect((quad.topLeft.y + quad.topRight.y) / 2 - into.y).toBeGreaterThan(3);
  });
});

test.each([4e-7, 5e-8, -2e-7])("a place seen through a lens of %d per px² is the one that straightening brings back", (radial) => {
  const size = { widthPx: FRAME.width, heightPx: FRAME.height };
  for (const point of [
    { x: 0, y: 0 },
    { x: 1199, y: 450 },
    { x: 599.5, y: 449.5 },
  ]) {
    const back = straightened(seenThroughLens(point, radial, size), radial, size);
    expect(Math.hypot(back.x - point.x, back.y - point.y)).toBeLessThan(0.001);
  }
});

test("the part of a frame that shows a sheet ends at the frame", () => {
  const { placeOf } = straightenedSheet({ quad: box(100, 50, 900, 950), frame: FRAME, sheetMm: { widthMm: 80, heightMm: 90 } });
  const part = partOfFrame(placeOf, { left: 0, top: 0, right: 80, bottom: 90 }, FRAME, 8);
  expect(part).toEqual({ left: 92, top: 42, width: 817, height: 858 });
});
