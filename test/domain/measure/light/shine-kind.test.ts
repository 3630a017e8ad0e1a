import { expect, test } from "vitest";
import { type ToldShine, toldShines } from "#domain/measure/light/shine-kind.ts";
import { shineShapes } from "#domain/measure/light/shine-shape.ts";
import type { GridPlane } from "#domain/measure/planes/grid-plane.ts";

const SIDE = 200;

/** Light of 1 where a figure holds, and what shines of it; with places in cells from the middle. */
function seen(lightAt: (x: number, y: number) => number): { light: GridPlane; mask: Uint8Array; marginCells: number } {
  const data = Float32Array.from({ length: SIDE * SIDE }, (_, at) =>
    lightAt((at % SIDE) + 0.5 - SIDE / 2, Math.floor(at / SIDE) + 0.5 - SIDE / 2),
  );
  return { light: { width: SIDE, height: SIDE, data }, mask: Uint8Array.from(data, (value) => (value > 0.05 ? 1 : 0)), marginCells: 4 };
}
const on = (holds: boolean) => (holds ? 1 : 0);
const turned = (x: number, y: number, degrees: number) => {
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return { u: x * cos + y * sin, v: -x * sin + y * cos };
};
const box = (x: number, y: number, wide: number, high: number, degrees = 0) => {
  const { u, v } = turned(x, y, degrees);
  return Math.abs(u) < wide / 2 && Math.abs(v) < high / 2;
};
const shapeOf = (lightAt: (x: number, y: number) => number) => {
  const [shape] = shineShapes(seen(lightAt));
  if (!shape) throw new Error("no shape");
  return shape;
};
const largest = (lightAt: (x: number, y: number) => number): ToldShine | undefined => toldShines(seen(lightAt))[0];

// Plane geometry: the largest four-cornered figure in a circle is its square, 2/π of it; in a regular hexagon a rectangle of 1 × √3, 2/3 of it; in a regular octagon its square, 1/√2.
test.each([
  ["a rectangle", (x: number, y: number) => on(box(x, y, 90, 60)), 1],
  ["a rectangle turned by 30°", (x: number, y: number) => on(box(x, y, 90, 60, 30)), 1],
  ["a circle", (x: number, y: number) => on(Math.hypot(x, y) < 45), 2 / Math.PI],
  ["an ellipse", (x: number, y: number) => on(Math.hypot(x / 1.5, y) < 35), 2 / Math.PI],
  ["a hexagon", (x: number, y: number) => on([0, 60, 120].every((turn) => Math.abs(turned(x, y, turn).v) < 45)), 2 / 3],
  ["an octagon", (x: number, y: number) => on([0, 45, 90, 135].every((turn) => Math.abs(turned(x, y, turn).v) < 45)), Math.SQRT1_2],
])("the largest four-cornered figure in %s has the share of it that geometry says", (_, lightAt, share) => {
  // steps of cells of a figure some 90 wide
  expect(Math.abs(shapeOf(lightAt).fourCornered - share)).toBeLessThan(0.04);
});

test("elongation is the ratio of the sides, solidity the share of the hull, and both hold at any angle", () => {
  for (const turn of [0, 20, 65]) {
    expect(shapeOf((x, y) => on(box(x, y, 120, 30, turn))).elongation).toBeCloseTo(4, 1);
    // an L: three of the four quarters of a square, whose hull is seven eighths of it
    const { u, v } = { u: (x: number, y: number) => turned(x, y, turn).u, v: (x: number, y: number) => turned(x, y, turn).v };
    const solidity = shapeOf((x, y) => on(box(x, y, 90, 90, turn) && !(u(x, y) > 0 && v(x, y) > 0))).solidity;
    expect(Math.abs(solidity - 6 / 7)).toBeLessThan(0.03);
  }
});

test("the rim of a bell of light is soft at any size, that of an even patch is not", () => {
  for (const reach of [12, 24]) {
    expect(shapeOf((x, y) => Math.exp(-(x * x + y * y) / reach ** 2)).softRim).toBeGreaterThan(0.3);
    expect(shapeOf((x, y) => on(Math.hypot(x, y) < 2 * reach)).softRim).toBeLessThan(0.05);
  }
});

test.each([
  [0, 0],
  [1, 0],
  [1, 1],
  [2, 1],
])("%d bars across and %d down a window are counted, and it is a window either way", (across, down) => {
  const isBar = (along: number, span: number, bars: number) =>
    Array.from({ length: bars }, (_, k) => Math.abs(along + span / 2 - ((k + 1) * span) / (bars + 1)) < 2.5).some(Boolean);
  const told = largest((x, y) => {
    const { u, v } = turned(x, y, 10);
    return on(box(x, y, 100, 80, 10) && !isBar(u, 100, across) && !isBar(v, 80, down));
  });
  expect(told).toMatchObject({ looksLike: "window", sure: "likely", bars: across + down });
});

test("a disc, a bell of light and a tube are lamps, a ragged patch and a tiny one are not told", () => {
  expect(largest((x, y) => on(Math.hypot(x, y) < 30))).toMatchObject({ looksLike: "lamp", sure: "likely" });
  expect(largest((x, y) => Math.exp(-(x * x + y * y) / 400))).toMatchObject({ looksLike: "lamp" });
  expect(largest((x, y) => on(box(x, y, 140, 14, 15)))).toMatchObject({ looksLike: "long lamp", sure: "likely" });
  for (const turn of [0, 1, 2]) {
    const reach = (heading: number) => 40 * (1 + 0.45 * Math.sin(3 * heading + turn) + 0.3 * Math.sin(7 * heading + 2 * turn));
    expect(largest((x, y) => on(Math.hypot(x, y) < reach(Math.atan2(y, x))))?.looksLike).toBe("not told");
  }
  expect(largest((x, y) => on(box(x, y, 8, 8)))).toBeUndefined();
});

test("a dark head and shoulders in a window is told as something before it, at any angle", () => {
  for (const turn of [0, 25]) {
    const told = largest((x, y) => {
      const { u, v } = turned(x, y, turn);
      return on(box(x, y, 100, 90, turn) && Math.hypot(u - 8, v) > 17 && Math.hypot(u - 8, v - 45) > 28);
    });
    expect(told?.looksLike).toBe("window with something dark before it");
    // the larger is half of a disc of 28: 0.137 of 100 × 90, less where it meets the rim
    expect(told?.darkPatch).toBeGreaterThan(0.11);
  }
});

test("a place of a window where its light is not known is no dark shape before it", () => {
  const unknown = seen((x, y) => (Math.hypot(x, y) < 20 ? Number.NaN : on(box(x, y, 100, 90))));
  expect(toldShines(unknown)[0]?.darkPatch).toBe(0);
});

test("what the picture's rim cuts off is told with less certainty, or as the light of something wide", () => {
  expect(largest((x, y) => on(box(x + 70, y, 80, 60)))).toMatchObject({ sure: "possible" });
  const wide = largest((x) => 1 / (1 + Math.exp(-x / 15)));
  expect(wide?.looksLike).toBe("veil");
  expect(wide?.cutOff).toBeGreaterThan(0.33);
});
