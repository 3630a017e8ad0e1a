import { expect, test } from "vitest";
import { keystone } from "#domain/measure/keystone.ts";
import { outlineOf, quad } from "../../fixtures/outlines.ts";
import { contextOf, pictureOf } from "../../fixtures/pictures.ts";

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

test("where the frame cuts the sheet it is read from the picture, and absent where that is cut too", () => {
  const sides = { top: "cut-off", right: "seen", bottom: "seen", left: "seen" } as const;
  const sheet = quad(50, -0.5, 550, 560);
  expect(keystone(picture, outlineOf(sheet, { sides, image: TRAPEZIUM }), contextOf())[0]).toMatchObject({
    value: expect.closeTo(5, 9),
    reliability: "fair",
  });
  expect(keystone(picture, outlineOf(sheet, { sides, image: quad(100, -0.5, 500, 500) }), contextOf())[0]).toHaveProperty("absent");
  expect(keystone(picture, outlineOf(sheet, { sides }), contextOf())[0]).toHaveProperty("absent");
  expect(keystone(picture, null, contextOf())[0]).toHaveProperty("absent");
});
