import { expect, test } from "vitest";
import { closeUpPlaces, type LaidPlanes } from "#domain/comparison/close-up-places.ts";
import type { GridPlane } from "#domain/measure/planes/grid-plane.ts";
import { random } from "../../fixtures/picture-scenes.ts";

const PX_PER_MM = 6;
const SHEET = { widthMm: 60, heightMm: 80 };
const PICTURE = { left: 5, top: 6, right: 55, bottom: 60 };
const SIDE_MM = 10;

type Extra = (xMm: number, yMm: number, light: number) => number;

/** A sheet with a wide lower border: a soft picture that is darkest at (15, 50), with a fine pattern round (40, 20), and a dark edge at the right. */
function plane(noiseSeed: number, extra: Extra = (_, __, light) => light): GridPlane {
  const [width, height] = [64 * PX_PER_MM, 88 * PX_PER_MM];
  const data = Float32Array.from({ length: width * height }, (_, at) => {
    const [x, y] = [((at % width) + 0.5) / PX_PER_MM - 2, (Math.floor(at / width) + 0.5) / PX_PER_MM - 4];
    let light = 0.05; // ground
    if (x >= 0 && y >= 0 && x <= SHEET.widthMm && y <= SHEET.heightMm) {
      // texture of the paper, stronger at the lower left
      light = 0.75 + (x < 5 && y > 60 ? 0.02 * Math.sin(11 * x) * Math.sin(13 * y) : 0);
      if (x > PICTURE.left && y > PICTURE.top && x < PICTURE.right && y < PICTURE.bottom) {
        light = 0.35 + 0.1 * Math.sin(x / 9);
        if (Math.hypot(x - 40, y - 20) < 6) light += 0.05 * Math.sign(Math.sin(9 * x) * Math.sin(8 * y));
        if (Math.hypot(x - 15, y - 50) < 4) light = 0.02;
        if (x > 54 && y > 30 && y < 36) light = 0.03;
      }
    }
    return extra(x, y, light) * (1 + 0.01 * (random(at % width, Math.floor(at / width), noiseSeed) - 0.5));
  });
  return { width, height, data };
}

const laid = (planes: readonly GridPlane[], pictureMm: LaidPlanes["pictureMm"] = PICTURE): LaidPlanes => ({
  planes,
  pxPerMm: PX_PER_MM,
  leftMm: 2,
  topMm: 4,
  sheetMm: SHEET,
  pictureMm,
});

const placeOf = (places: ReturnType<typeof closeUpPlaces>, kind: string) =>
  places.find((each) => each.kind === kind) ?? { xMm: Number.NaN, yMm: Number.NaN };
const near = (place: { xMm: number; yMm: number }, xMm: number, yMm: number, mm: number) =>
  expect(Math.hypot(place.xMm - xMm, place.yMm - yMm), `${place.xMm}, ${place.yMm}`).toBeLessThan(mm);

test("border, edge, finest detail and deepest shadow are found where they were drawn", () => {
  const places = closeUpPlaces(laid([plane(1), plane(2)]), SIDE_MM);
  expect(places.map(({ kind }) => kind)).toEqual(["border", "edge", "detail", "shadow"]);
  near(placeOf(places, "border"), 2.5, 75, 3);
  near(placeOf(places, "edge"), 55, 33, 2);
  near(placeOf(places, "detail"), 40, 20, 2);
  near(placeOf(places, "shadow"), 15, 50, 2);
});

test("what only one capture shows decides nothing: its noise, its dust, its dark corner", () => {
  const dusty: Extra = (x, y, light) => {
    if (Math.hypot(x - 15, y - 15) < 6) return light * (1 + 0.4 * (random(Math.round(6 * x), Math.round(6 * y), 5) - 0.5));
    return Math.hypot(x - 45, y - 50) < 5 ? 0.001 : light;
  };
  const places = closeUpPlaces(laid([plane(3), plane(4, dusty), plane(5)]), SIDE_MM);
  near(placeOf(places, "detail"), 40, 20, 2);
  near(placeOf(places, "shadow"), 15, 50, 2);
});

test("a place that a capture's frame cuts off is not chosen", () => {
  const cut: Extra = (x, _, light) => (x > 35 ? Number.NaN : light);
  const places = closeUpPlaces(laid([plane(6), plane(7, cut)]), SIDE_MM);
  expect(placeOf(places, "detail").xMm + SIDE_MM / 2).toBeLessThan(35.5);
  near(placeOf(places, "shadow"), 15, 50, 2);
});

test("without a border there is no close-up of one, and the edge is the sheet's", () => {
  const places = closeUpPlaces(laid([plane(8), plane(9)], null), SIDE_MM);
  expect(places.map(({ kind }) => kind)).toEqual(["edge", "detail", "shadow"]);
  const { xMm, yMm } = placeOf(places, "edge");
  expect(Math.min(xMm, yMm, SHEET.widthMm - xMm, SHEET.heightMm - yMm)).toBeCloseTo(0, 6);
});
