import { expect, test, vi } from "vitest";
import { layCaptures } from "#domain/measure/laying/lay-captures.ts";
import { layFinely } from "#domain/measure/laying/lay-finely.ts";
import { makeGrid } from "#domain/measure/laying/print-grid.ts";
import { dustTogether } from "#domain/measure/surface/dust-together.ts";
import { captureSheet } from "../../../fixtures/captured-sheet.ts";
import { dustInPrint, dustOf, plainAbove } from "../../../fixtures/defects/dust.ts";
import { streaksOf } from "../../../fixtures/defects/streaks.ts";
import type { Defect } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

vi.setConfig({ testTimeout: 60_000 });

const PRINT = { widthMm: 40, heightMm: 44, border: { left: 4, right: 4, top: 4, bottom: 4 }, content: "scene" } as const;
const DEVICES = [
  { ppi: 250, turnDeg: 1 },
  { ppi: 230, turnDeg: -1.5, blurPx: 0.7 },
  { ppi: 260, turnDeg: 91, blurPx: 0.65 },
] as const;

/** One capture for each density, with dust of its own, and what all of them show. */
async function readOf(
  densities: readonly number[],
  seed: number,
  { shared = [] as readonly Defect[], ofFirst = [] as readonly Defect[], isDecoded = true } = {},
) {
  const sheets = densities.map((perCm2, index) => {
    const device = DEVICES[index] as (typeof DEVICES)[number];
    const defects = [
      ...shared,
      ...(index === 0 ? ofFirst : []),
      dustOf({ perCm2, pxPerMm: device.ppi / 25.4, depth: 0.35, seed: seed + index }),
    ];
    return captureSheet({ ...device, seed, noiseSeed: 10 * seed + index, print: PRINT, defects });
  });
  const coarsely = layCaptures(
    sheets.flatMap(({ picture, outline, context }, captureId) => {
      const grid = makeGrid(picture, outline, context);
      return grid ? [{ captureId, grid }] : [];
    }),
  ).flatMap((each) => ("coarse" in each ? [each] : []));
  return dustTogether(await layFinely(coarsely, async (captureId) => (isDecoded ? (sheets[captureId]?.picture ?? null) : null)));
}

test("of three captures each gets the dust that only it shows, over the whole picture", async () => {
  const drawn = [2, 0, 6];
  const readings = await readOf(drawn, 7401);
  for (const [index, density] of drawn.entries()) {
    const { value, reliability, bound } = presentOf(readings[index] ?? [], "dustPerCm2");
    expect({ reliability, bound }).toEqual({ reliability: "fair", bound: "lower" });
    expect(Math.abs(value - density), `${value} of ${density}`).toBeLessThan(density === 0 ? 0.3 : 0.3 * density);
    expect(presentOf(readings[index] ?? [], "scratchLengthMm").value).toBeLessThan(1);
  }
});

test("of two captures the one that has the dust is told, fairly", async () => {
  const [dusty, clean] = await readOf([4, 0], 7411);
  const read = presentOf(dusty ?? [], "dustPerCm2");
  expect(read).toMatchObject({ reliability: "fair", bound: "lower", detail: { of: "picture", comparedWith: 1 } });
  expect(Math.abs(read.value - 4), `${read.value}`).toBeLessThan(1.6);
  expect(presentOf(clean ?? [], "dustPerCm2").value).toBeLessThan(0.4);
});

test("dust that every capture shows is of the print or of one place of the glass: counted apart where the picture is plain, and not as dust of one", async () => {
  const readings = await readOf([0, 0, 0], 7431, { shared: [plainAbove(26, 0.3), dustInPrint(3, 0.3, 7431)] });
  for (const each of readings) {
    const { value, detail, note } = presentOf(each, "dustPerCm2");
    expect(note).toContain("in the print, or on the glass where it lay in the same place");
    const { specks, plainCm2 } = (detail?.inAll ?? {}) as { specks: number; plainCm2: number };
    expect(value).toBeLessThan(0.4);
    expect(Math.abs(specks / plainCm2 - 3), `${specks} on ${plainCm2} cm²`).toBeLessThan(1.2);
  }
});

test("without fine planes both are absent, with the reason", async () => {
  for (const readings of await readOf([2, 0], 7421, { isDecoded: false }))
    for (const name of ["dustPerCm2", "scratchLengthMm"] as const) expect(reasonOf(readings, name)).toMatch(/pixels could not be read/);
});

/** Five streaks down the frame, dark and light, at other places for each seed. */
const streaks = (seed: number, gain: number): Defect =>
  streaksOf(
    [0, 1, 2, 3, 4].map((k) => ({
      along: "columns" as const,
      atPx: 170 + 55 * k + ((7 * seed + 13 * k) % 31),
      widthPx: 1.5 + ((seed + k) % 4) * 0.7,
      gain: k % 2 ? gain : -gain,
    })),
  );

test.each([7501, 7502, 7503])("pieces of a sheet-fed scanner's streaks over print %d are dust of neither of two captures", async (seed) => {
  for (const each of await readOf([0, 0], seed, { ofFirst: [streaks(seed, 0.2)] }))
    expect(presentOf(each, "dustPerCm2").value).toBeLessThan(0.2);
});

test.each([7501, 7504])("true dust beside streaks over print %d is found", async (seed) => {
  const [dusty] = await readOf([4, 0, 0], seed, { ofFirst: [streaks(seed, 0.2)] });
  const { value } = presentOf(dusty ?? [], "dustPerCm2");
  expect(Math.abs(value - 4), `${value}`).toBeLessThan(1.4);
});
