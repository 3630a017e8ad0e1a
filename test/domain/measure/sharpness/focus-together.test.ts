import { beforeAll, describe, expect, test } from "vitest";
import { type CoarselyLaid, layCaptures } from "#domain/measure/laying/lay-captures.ts";
import { type Fine, type Laid, layFinely } from "#domain/measure/laying/lay-finely.ts";
import { makeGrid } from "#domain/measure/laying/print-grid.ts";
import { spectraByTile } from "#domain/measure/numbers/cross-spectra.ts";
import { blurred, type GridPlane } from "#domain/measure/planes/grid-plane.ts";
import type { Reading } from "#domain/measure/reading.ts";
import { blurBetween } from "#domain/measure/sharpness/blur-between.ts";
import { focusTogether } from "#domain/measure/sharpness/focus-together.ts";
import { captureFinePrint, drawFinePrint, FINE_MM, type FineCapture } from "../../../fixtures/fine-captures.ts";
import { outlineOf } from "../../../fixtures/outlines.ts";
import { contextOf } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

const PRINT = drawFinePrint(61);
const CONTEXT = contextOf({ sheetWidthMm: FINE_MM, sheetHeightMm: FINE_MM });
const SHARP_MM = 0.06;
/** More blur at the soft side that takes 40 % of the resolution there. */
const SOFT_MM = SHARP_MM * Math.sqrt(1 / 0.6 ** 2 - 1);

const TILTED: FineCapture = {
  ppi: 250,
  blurMm: SHARP_MM,
  noiseCodes: 2,
  turnDeg: 1,
  cornersOffMm: 0.1,
  noiseSeed: 611,
  softer: { mm: SOFT_MM, degrees: 90 },
};
const EVEN: readonly FineCapture[] = [
  { ppi: 240, blurMm: 0.065, noiseCodes: 2, turnDeg: -1.5, quarters: 1, cornersOffMm: 0.1, noiseSeed: 612 },
  { ppi: 260, blurMm: 0.06, noiseCodes: 3, turnDeg: 0.5, cornersOffMm: 0.1, noiseSeed: 613 },
];

/** Laid on each other finely; `blurMm` is what the edges told of each, null for none. */
async function laid(set: readonly (readonly [FineCapture, blurMm: number | null])[]): Promise<Laid[]> {
  const taken = set.map(([options]) => captureFinePrint(PRINT, options));
  const coarse = layCaptures(
    taken.flatMap(({ picture, quad }, captureId) => {
      const grid = makeGrid(picture, outlineOf(quad), CONTEXT);
      const blurMm = set[captureId]?.[1] ?? null;
      return grid ? [{ captureId, grid: { ...grid, blur: { sheet: quad, varianceMm2: blurMm === null ? null : blurMm ** 2 } } }] : [];
    }),
  );
  return layFinely(coarse as CoarselyLaid[], async (captureId) => taken[captureId]?.picture ?? null);
}

const turnBetween = (one: number, other: number) => Math.abs(((one - other + 540) % 360) - 180);

test("the variance between a plane and its Gaussian blur is the blur's own, tile by tile", () => {
  const sharp: GridPlane = blurred(PRINT, 1);
  const soft = blurred(sharp, 0.8);
  const fines = [sharp, soft, blurred(sharp, 1.2)].map((plane) => ({ plane, pxPerMm: 1, ownPxPerMm: 1 }) as Fine);
  const between = blurBetween(spectraByTile(fines.map(({ plane }) => plane)), fines, [0, 1, 2]);
  expect(between?.tiles.length).toBeGreaterThan(12);
  for (const { variances } of between?.tiles ?? []) {
    expect((variances[1] as number) - (variances[0] as number)).toBeCloseTo(0.64, 1);
    expect((variances[2] as number) - (variances[0] as number)).toBeCloseTo(1.44, 1);
  }
});

describe("captures of one print", () => {
  let all: Laid[] = [];
  beforeAll(async () => {
    all = await laid([
      [TILTED, null],
      [EVEN[0] as FineCapture, 0.065],
      [EVEN[1] as FineCapture, 0.06],
    ]);
  }, 120_000);
  const of = (readings: readonly (readonly Reading[])[], index: number) => readings[index] ?? [];

  test("of three the tilted one is told, fairly and with its direction, and the others are even", () => {
    const readings = focusTogether(all);
    const tilted = presentOf(of(readings, 0), "focusFalloffPercent");
    expect(Math.abs(tilted.value - 40)).toBeLessThan(6);
    expect(tilted).toMatchObject({ reliability: "fair", bound: "lower", detail: { kind: "tilt", comparedWith: 2 } });
    expect(turnBetween(presentOf(of(readings, 0), "focusFalloffDegrees").value, 90)).toBeLessThan(12);
    for (const index of [1, 2]) {
      expect(presentOf(of(readings, index), "focusFalloffPercent").value).toBeLessThan(8);
      expect(reasonOf(of(readings, index), "focusFalloffDegrees")).toContain("too little");
    }
  });

  test("of two both get it, weak and opposite on the print, and it is said that a third would tell", () => {
    const readings = focusTogether(all.slice(0, 2));
    for (const index of [0, 1]) {
      const falloff = presentOf(of(readings, index), "focusFalloffPercent");
      expect(Math.abs(falloff.value - 40)).toBeLessThan(10);
      expect(falloff).toMatchObject({ reliability: "weak", note: expect.stringContaining("a third would tell") });
    }
    // the second lies turned by a quarter, clockwise: what is up on the print lies to the right in its frame
    expect(turnBetween(presentOf(of(readings, 0), "focusFalloffDegrees").value, 90)).toBeLessThan(12);
    expect(turnBetween(presentOf(of(readings, 1), "focusFalloffDegrees").value, 0)).toBeLessThan(12);
  });

  test("the grid of it gets softer that way", () => {
    const tiles = presentOf(of(focusTogether(all), 0), "focusFalloffPercent").detail?.tiles as { down: number; sfr50CyPerMm: number }[];
    const mean = (isIn: (down: number) => boolean) => {
      const here = tiles.filter(({ down }) => isIn(down));
      return here.reduce((sum, { sfr50CyPerMm }) => sum + sfr50CyPerMm, 0) / here.length;
    };
    expect(mean((down) => down > 0.7)).toBeLessThan(0.85 * mean((down) => down < 0.3));
  });

  test("without one readable edge there is nothing to be a share of, and one capture alone is no comparison", () => {
    const unknown = all.map((each) => ({ ...each, grid: { ...each.grid, blur: { sheet: each.grid.quad as never, varianceMm2: null } } }));
    expect(reasonOf(of(focusTogether(unknown), 0), "focusFalloffPercent")).toContain("edges of the print could not be read");
    expect(reasonOf(of(focusTogether(all.slice(0, 1)), 0), "focusFalloffPercent")).toContain("third capture");
  });
});

test("two saves of one capture are one witness", async () => {
  const one: FineCapture = { ...(EVEN[1] as FineCapture), noiseCodes: 4 };
  const readings = focusTogether(
    await laid([
      [one, 0.06],
      [{ ...one, gain: 0.9 }, 0.06],
    ]),
  );
  for (const each of readings) expect(reasonOf(each, "focusFalloffPercent")).toContain("shares fine noise");
}, 60_000);
