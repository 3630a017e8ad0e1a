import { expect, test } from "vitest";
import { skew } from "#domain/measure/geometry/skew.ts";
import { project } from "#domain/measure/homography.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { outlineOf, quad } from "../../../fixtures/outlines.ts";
import { contextOf, INSTANT, type PoseOptions, pictureOf, poseOf } from "../../../fixtures/pictures.ts";

const picture = pictureOf(new Uint8Array(800 * 800 * 3), 800, 800);

/** The sheet of an instant print, its corners as they lie on the unturned print. */
function sheetAt(pose: Partial<PoseOptions>): Quad {
  const map = poseOf({ ...INSTANT, ppi: 120, centre: { x: 400, y: 400 }, ...pose });
  const { widthMm: w, heightMm: h } = INSTANT;
  return { topLeft: project(map, 0, 0), topRight: project(map, w, 0), bottomRight: project(map, w, h), bottomLeft: project(map, 0, h) };
}

test("an upright sheet has none", () => {
  expect(skew(picture, outlineOf(quad(100, 100, 500, 600)), contextOf())[0]).toMatchObject({ value: 0, reliability: "firm" });
});

test.each([3.25, -6.5])("a sheet turned by %d degrees reads so, clockwise positive", (turnDeg) => {
  const [reading] = skew(picture, outlineOf(sheetAt({ turnDeg })), contextOf());
  expect(reading).toMatchObject({ value: expect.closeTo(Math.abs(turnDeg), 6), detail: { degreesClockwise: expect.closeTo(turnDeg, 6) } });
});

test("a tilted camera does not pass for skew", () => {
  const [reading] = skew(picture, outlineOf(sheetAt({ turnDeg: 2, keystoneAcross: 0.15, keystoneDown: -0.1 })), contextOf());
  expect(reading).toMatchObject({ value: expect.closeTo(2, 3) });
});

test("where the frame cuts the sheet, the sides that are left tell, and the reading is only fair", () => {
  // All three sides turned by atan(10 / 400) = 1.432 degrees.
  const sheet = {
    topLeft: { x: 100, y: -0.5 },
    topRight: { x: 500, y: -0.5 },
    bottomRight: { x: 490, y: 399.5 },
    bottomLeft: { x: 90.25, y: 389.5 },
  };
  const sides = { top: "cut-off", right: "seen", bottom: "seen", left: "seen" } as const;
  const [reading] = skew(picture, outlineOf(sheet, { sides }), contextOf());
  expect(reading).toMatchObject({ value: expect.closeTo(1.432, 2), reliability: "fair", note: expect.stringContaining("3 sides") });
});

test("the spread is that of the ends of the sides that are read: √2 c / L of one side, c / L of two (JCGM 100:2008, 5.1.2)", () => {
  // 400 px wide, each corner within 2 px across the side: c / L = 0.005 = 0.2865 degrees
  const cut = (left: number) => quad(left, -0.5, left + 400, 799.5);
  const sides = { top: "cut-off", right: "seen", bottom: "cut-off", left: "cut-off" } as const;
  const one = skew(picture, outlineOf(cut(-0.5), { sides, cornerSpreadPx: 2 }), contextOf())[0];
  const two = skew(picture, outlineOf(cut(100), { sides: { ...sides, left: "seen" }, cornerSpreadPx: 2 }), contextOf())[0];
  const whole = skew(picture, outlineOf(quad(100, 100, 500, 600), { cornerSpreadPx: 0.2 }), contextOf())[0];
  expect([one, two, whole].map((each) => (each as { spread: number }).spread)).toEqual([
    expect.closeTo(0.4052, 3),
    expect.closeTo(0.2865, 3),
    expect.closeTo(0.02865, 4),
  ]);
});

test("is absent without a print, and in a file cropped to a print without a border", () => {
  expect(skew(picture, null, contextOf())[0]).toHaveProperty("absent");
  const sides = { top: "assumed", right: "assumed", bottom: "assumed", left: "assumed" } as const;
  expect(skew(picture, outlineOf(quad(-0.5, -0.5, 799.5, 799.5), { sides }), contextOf())[0]).toHaveProperty("absent");
});
