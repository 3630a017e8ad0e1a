import { describe, expect, test } from "vitest";
import type { Fine, Laid } from "#domain/measure/laying/lay-finely.ts";
import { blurred, type GridPlane, resized, valueAt } from "#domain/measure/planes/grid-plane.ts";
import { ringsTogether } from "#domain/measure/surface/rings-together.ts";
import { drawFinePrint } from "../../../fixtures/fine-captures.ts";
import { random } from "../../../fixtures/picture-scenes.ts";
import { presentOf } from "../../../fixtures/readings.ts";

const PX_PER_MM = 4;
const SIDE_PX = 60 * PX_PER_MM;
const CONTACT = { x: 110, y: 95 };
const name = "ringAreaPercent";

/** A sky above detail, light. */
function picture(seed: number): GridPlane {
  const drawn = resized(drawFinePrint(seed), SIDE_PX, SIDE_PX);
  return { ...drawn, data: drawn.data.map((value, at) => 0.2 * (value / 0.2) ** (at < 0.55 * SIDE_PX ** 2 ? 0.06 : 1)) };
}

/** What a capture adds of its own: noise of 0.8 %. */
const noisy = (plane: GridPlane, seed: number): GridPlane => ({
  ...plane,
  data: plane.data.map((value, at) => value * (1 + 0.008 * Math.sqrt(12) * (random(at, 3, seed) - 0.5))),
});

/** Rings by r² = m λ R, 5 % of the light at the place of contact, fading over 14 mm. */
const ringed = (plane: GridPlane): GridPlane => ({
  ...plane,
  data: plane.data.map((value, at) => {
    const mm = Math.hypot((at % SIDE_PX) - CONTACT.x, Math.floor(at / SIDE_PX) - CONTACT.y) / PX_PER_MM;
    return value * (1 - 0.05 * Math.exp(-((mm / 14) ** 2)) * Math.cos((2 * Math.PI * mm ** 2) / 27));
  }),
});

/** Laid 0.2 mm beside the others. */
const beside = (plane: GridPlane): GridPlane => ({
  ...plane,
  data: plane.data.map((_, at) => valueAt(plane, Math.min(SIDE_PX - 1, (at % SIDE_PX) + 0.9), Math.floor(at / SIDE_PX))),
});

const told = (planes: readonly GridPlane[]) =>
  ringsTogether(
    planes.map((plane, captureId) => {
      const fine = { plane, pxPerMm: PX_PER_MM } as Fine;
      return { captureId, fine, coarse: plane, pxPerMm: PX_PER_MM, asSeen: (mask: GridPlane) => mask, sizeAsSeen: null } as unknown as Laid;
    }),
  );

// Written with the seeds 51 to 57, proven on 58 to 60.
describe.each([58, 59, 60])("captures of a picture with sky and detail, one with rings (seed %d)", (seed) => {
  const [first, second, third, fourth] = [1, 2, 3, 4].map((k) => noisy(picture(seed), 100 * seed + k)) as [
    GridPlane,
    GridPlane,
    GridPlane,
    GridPlane,
  ];

  test("of four they are told though the last lies beside the others", () => {
    const readings = told([first, ringed(second), third, beside(fourth)]);
    expect(presentOf(readings[1] ?? [], name).value).toBeGreaterThan(5);
    for (const index of [0, 2, 3]) expect(presentOf(readings[index] ?? [], name).value).toBe(0);
  });

  test("of two they are not told of the sharper one", () => {
    const [soft, sharp] = told([ringed(blurred(first, 1.1)), second]);
    expect(presentOf(soft ?? [], name).value).toBeGreaterThan(5);
    expect(presentOf(sharp ?? [], name).value).toBe(0);
  });
});
