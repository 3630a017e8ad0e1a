import { expect, test } from "vitest";
import type { AimLimit } from "#domain/aim/aim.ts";
import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import { isLeftOpen, shortfall } from "#domain/master/requirements.ts";
import { shown } from "#domain/master/shown.ts";
import { keystone } from "#domain/measure/geometry/keystone.ts";
import type { Outline } from "#domain/measure/reading.ts";
import { outlineOf, quad } from "../../../fixtures/outlines.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";

const picture = pictureOf(new Uint8Array(600 * 600 * 3), 600, 600);

/** Top 400 px, bottom 420 px: 5 % longer. */
const TRAPEZIUM = {
  topLeft: { x: 100, y: 100 },
  topRight: { x: 500, y: 100 },
  bottomRight: { x: 510, y: 500 },
  bottomLeft: { x: 90, y: 500 },
};

test("a rectangle has none, however it is turned", () => {
  expect(keystone(picture, outlineOf(quad(100, 100, 500, 550)), contextOf())[0]).toMatchObject({ value: 0 });
  const turned = {
    topLeft: { x: 130, y: 100 },
    topRight: { x: 430, y: 140 },
    bottomRight: { x: 390, y: 440 },
    bottomLeft: { x: 90, y: 400 },
  };
  expect(keystone(picture, outlineOf(turned), contextOf())[0]).toMatchObject({ value: expect.closeTo(0, 9) });
});

test("a bottom of 420 px under a top of 400 px reads 5 %", () => {
  expect(keystone(picture, outlineOf(TRAPEZIUM), contextOf())[0]).toMatchObject({
    value: expect.closeTo(5, 9),
    reliability: "firm",
    detail: { bottomOverTopPercent: expect.closeTo(5, 9), rightOverLeftPercent: expect.closeTo(0, 9) },
  });
});

test("with the size known it is told in mm of the print too: 5 % of 100 mm", () => {
  const context = contextOf({ sheetWidthMm: 100, sheetHeightMm: 98 });
  expect(keystone(picture, outlineOf(TRAPEZIUM), context)[1]).toMatchObject({
    name: "keystoneMm",
    value: expect.closeTo(5, 9),
    detail: { bottomOverTopMm: expect.closeTo(5, 9), rightOverLeftMm: expect.closeTo(0, 9) },
  });
  expect(keystone(picture, outlineOf(TRAPEZIUM), contextOf())[1]).toEqual({
    name: "keystoneMm",
    absent: expect.stringContaining("size of the print is not known"),
  });
});

test("unsure corners widen the spread: a corner off by 1 px in 400 is half a per cent of both sides together", () => {
  expect(keystone(picture, outlineOf(quad(100, 100, 500, 500), { cornerSpreadPx: 1 }), contextOf())[0]).toMatchObject({
    spread: expect.closeTo(0.5, 9),
  });
});

/** A plane seen under a tilt: places of a sheet of 100 × 100 lie at 4 px to the unit over 1 + 0.0005 y, so that its top is 5 % longer. */
const seenTilted = (left: number, top: number, right: number, bottom: number) => {
  const at = (x: number, y: number) => ({ x: 100 + (4 * x) / (1 + 0.0005 * y), y: 100 + (4 * y) / (1 + 0.0005 * y) });
  return { topLeft: at(left, top), topRight: at(right, top), bottomRight: at(right, bottom), bottomLeft: at(left, bottom) };
};

test("where a side is not seen the picture tells the perspective and the sheet how far it reaches: 5 %, not the picture's 3.98 %", () => {
  const sides = { top: "seen", right: "seen", bottom: "assumed", left: "seen" } as const;
  const outline = outlineOf(seenTilted(0, 0, 100, 100), { sides, image: seenTilted(10, 10, 90, 90), cornerSpreadPx: 4 });
  const [percent, mm] = keystone(picture, outline, contextOf({ sheetWidthMm: 80, sheetHeightMm: 80 }));
  expect(percent).toMatchObject({ value: expect.closeTo(5, 9), reliability: "fair", detail: { basis: "sheet" } });
  expect(percent).not.toHaveProperty("bound");
  // the picture's 0.18 %, 1.25 times as far apart; and a reach of 400 px, shrunk to 380.95, that is unsure by 4 px at both ends
  expect(percent).toHaveProperty("spread", expect.closeTo(Math.hypot(0.18 * 1.25, (5 * Math.SQRT2 * 4) / 380.95), 3));
  expect(mm).toMatchObject({ value: expect.closeTo(4, 9), detail: { bottomOverTopMm: expect.closeTo(-4, 9) } });
  const picturesOwn = keystone(picture, outlineOf(seenTilted(10, 10, 90, 90)), contextOf())[0];
  expect(picturesOwn).toMatchObject({ value: expect.closeTo(100 * (1.045 / 1.005 - 1), 9) });
});

test("a size that is not exactly known widens what is told in mm by as much", () => {
  const context = contextOf({ sheetWidthMm: 100, sheetHeightMm: 98, sheetToleranceMm: 0.98 });
  const [, mm] = keystone(picture, outlineOf(TRAPEZIUM, { cornerSpreadPx: 0 }), context);
  expect(mm).toHaveProperty("spread", expect.closeTo((5 * 0.01) / Math.sqrt(3), 9));
});

const CUT = { top: "cut-off", right: "seen", bottom: "seen", left: "seen" } as const;

test("where the frame cuts the sheet the picture's own is told as no bound, wider by what its borders may add, and absent where that is cut too", () => {
  const sheet = quad(50, -0.5, 550, 560);
  const [percent] = keystone(
    picture,
    outlineOf(sheet, { sides: CUT, image: TRAPEZIUM }),
    contextOf({ sheetWidthMm: 100, sheetHeightMm: 98 }),
  );
  expect(percent).toMatchObject({
    value: expect.closeTo(5, 9),
    reliability: "fair",
    // 0.18 % of its corners, and evenly up to 0.4 of 5 % (JCGM 100:2008, 4.3.7)
    spread: expect.closeTo(Math.hypot(0.18, 2 / Math.sqrt(3)), 9),
    note: expect.stringContaining("read of the picture"),
    detail: { basis: "picture" },
  });
  expect(percent).not.toHaveProperty("bound");
  expect(keystone(picture, outlineOf(sheet, { sides: CUT, image: quad(100, -0.5, 500, 500) }), contextOf())[0]).toHaveProperty("absent");
  expect(keystone(picture, outlineOf(sheet, { sides: CUT }), contextOf())[0]).toHaveProperty("absent");
  expect(keystone(picture, null, contextOf())[0]).toHaveProperty("absent");
});

test("where the frame cuts the sheet and both sizes are known it is the sheet's own: 5 %, not the picture's 3.98 %", () => {
  const outline = outlineOf(quad(80, 50, 520, 599.5), {
    sides: { ...CUT, top: "seen", bottom: "cut-off" },
    image: seenTilted(10, 10, 90, 90),
  });
  const sizes = contextOf({ sheetWidthMm: 100, sheetHeightMm: 100, imageWidthMm: 80, imageHeightMm: 80 });
  const [percent, mm] = keystone(picture, outline, sizes);
  expect(percent).toMatchObject({ value: expect.closeTo(5, 9), spread: expect.closeTo(0.18 * 1.25, 9), detail: { basis: "sheet" } });
  expect(percent).not.toHaveProperty("bound");
  expect(mm).toMatchObject({ value: expect.closeTo(5, 9) });
});

test("keystone keeps no scan that was pushed against the rim of the bed from being a preservation master, where its picture shows that nothing leans", () => {
  const level = outlineOf(quad(-0.5, -0.5, 500, 500), { sides: { ...CUT, left: "cut-off" }, image: quad(50, 50, 450, 450) });
  const aim = PUBLISHED_AIMS.find(({ limits }) =>
    limits.some(({ measure, requiredAtMost }) => measure === "keystonePercent" && requiredAtMost === 2),
  );
  const limit = aim?.limits.find(({ measure }) => measure === "keystonePercent") as AimLimit;
  const told = (outline: Outline) => shown(limit, keystone(picture, outline, contextOf())[0]);
  expect(shortfall(limit, told(level))).toBeNull();
  expect(isLeftOpen(limit, told(level))).toBe(false);
  expect(shortfall(limit, told({ ...level, image: TRAPEZIUM }))).toMatchObject({
    sense: "at-most",
    required: 2,
    value: expect.closeTo(5, 9),
  });
});
