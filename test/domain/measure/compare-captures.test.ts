import { expect, test } from "vitest";
import type { MeasureName } from "#domain/measure/catalogue.ts";
import { compareCaptures } from "#domain/measure/compare-captures.ts";
import type { PrintGrid } from "#domain/measure/laying/print-grid.ts";
import { drawGrid } from "../../fixtures/print-grids.ts";
import { presentOf, reasonOf } from "../../fixtures/readings.ts";

const GLARE: MeasureName = "glareAreaPercent";
const compare = async (...grids: PrintGrid[]) =>
  (await compareCaptures(grids.map((grid, index) => ({ captureId: index + 1, grid })))).map((each) => each.readings);

/** Share of a 60 × 50 mm picture, 2 mm of rim left out, where a lobe adds more than 0.01 of linear light; percent. */
function shareOf({ xMm, yMm, sigmaMm, peak }: { xMm: number; yMm: number; sigmaMm: number; peak: number }): number {
  let [inside, shining] = [0, 0];
  for (let y = 0; y < 50; y += 0.25) {
    for (let x = 0; x < 60; x += 0.25) {
      inside++;
      if (peak * Math.exp(-((x - xMm) ** 2 + (y - yMm) ** 2) / (2 * sigmaMm ** 2)) > 0.01) shining++;
    }
  }
  return (100 * shining) / inside;
}

const LOBE = { xMm: 20, yMm: 22, sigmaMm: 4, peak: 0.1 };
const OTHER_DEVICE = { pxPerMm: 5, offMm: { x: 0.1, y: -0.08 }, offDeg: 0.15, blurPx: 1.2, gamma: 1.1, noise: 0.6 };

test.each([21, 22])("two captures of print %d without glare, by different devices, read less than 0.5 %%", async (seed) => {
  for (const readings of await compare(drawGrid({ seed }), drawGrid({ seed, ...OTHER_DEVICE })))
    expect(presentOf(readings, GLARE).value).toBeLessThan(0.5);
});

test.each([24, 25])("glare on one of two captures of print %d is found there, in size and place, and hardly in the other", async (seed) => {
  const [shining, clean] = (await compare(drawGrid({ seed, glare: [LOBE] }), drawGrid({ seed, ...OTHER_DEVICE }))) as [never, never];
  const read = presentOf(shining, GLARE);
  expect(read.value).toBeLessThanOrEqual(shareOf(LOBE));
  // a lobe of 10 % of white is counted where it adds 1.5 %, less a rim of 0.25 mm: 0.77 of where it adds 1 %
  expect(read.value).toBeGreaterThan(0.7 * shareOf(LOBE));
  expect(read).toMatchObject({ reliability: "fair", bound: "lower", note: expect.stringContaining("cannot be told from shadow") });
  expect(presentOf(clean, GLARE).value).toBeLessThan(1.5);
  const place = (read.detail?.places as { mm: { left: number; top: number; width: number; height: number } }[] | undefined)?.[0];
  if (!place) throw new Error("no place");
  expect(place.mm.left + place.mm.width / 2).toBeCloseTo(LOBE.xMm, -0.5);
  expect(Math.abs(place.mm.left + place.mm.width / 2 - LOBE.xMm)).toBeLessThan(2);
  expect(Math.abs(place.mm.top + place.mm.height / 2 - LOBE.yMm)).toBeLessThan(2);
});

test("a capture compared only with one that shines all over is read weakly, never firmly", async () => {
  const broad = { xMm: 30, yMm: 20, sigmaMm: 9, peak: 0.2 };
  for (const seed of [11, 12, 13, 14]) {
    const [shining, clean] = (await compare(drawGrid({ seed, glare: [broad] }), drawGrid({ seed, ...OTHER_DEVICE }))) as [never, never];
    expect(presentOf(shining, GLARE).value).toBeGreaterThan(10);
    const read = presentOf(clean, GLARE);
    expect(read.reliability).toBe(read.value === 0 ? "fair" : "weak");
  }
});

test("with three captures the reading is firm and glare falls to the capture it is in", async () => {
  const seed = 27;
  const [first, second, third] = (await compare(
    drawGrid({ seed, glare: [LOBE] }),
    drawGrid({ seed, ...OTHER_DEVICE, glare: [{ xMm: 40, yMm: 35, sigmaMm: 3, peak: 0.3 }] }),
    drawGrid({ seed, pxPerMm: 6 }),
  )) as [never, never, never];
  expect(presentOf(first, GLARE)).toMatchObject({ reliability: "firm", detail: { comparedWith: 2 } });
  expect(presentOf(first, GLARE).value).toBeLessThanOrEqual(shareOf(LOBE));
  expect(presentOf(first, GLARE).value).toBeGreaterThan(0.7 * shareOf(LOBE));
  expect(presentOf(second, GLARE).value).toBeGreaterThan(4);
  expect(presentOf(third, GLARE).value).toBeLessThan(0.5);
});

test("where two of three captures shine at one place, both are told, but not firmly", async () => {
  const seed = 28;
  const wide = { xMm: 22, yMm: 24, sigmaMm: 5, peak: 0.3 };
  const [faint, bright, plain] = (await compare(
    drawGrid({ seed, glare: [LOBE] }),
    drawGrid({ seed, ...OTHER_DEVICE, glare: [wide] }),
    drawGrid({ seed, pxPerMm: 6 }),
  )) as [never, never, never];
  const read = presentOf(faint, GLARE);
  expect(read.value).toBeLessThanOrEqual(shareOf(LOBE));
  expect(read.value).toBeGreaterThan(0.5 * shareOf(LOBE));
  expect(read).toMatchObject({ reliability: "fair", bound: "lower", note: expect.stringContaining("only one tells there") });
  expect(presentOf(bright, GLARE).value).toBeLessThanOrEqual(shareOf(wide));
  expect(presentOf(bright, GLARE).value).toBeGreaterThan(0.7 * shareOf(wide));
  expect(presentOf(plain, GLARE).value).toBeLessThan(0.5);
});

test.each([1, 2])(
  "a print turned by %d quarters in the other capture is turned back, and the place named as that capture sees it",
  async (quarters) => {
    const turnedLobe = { xMm: 15, yMm: 14, sigmaMm: 3, peak: 0.2 };
    const [plain, turned] = (await compare(drawGrid({ seed: 28 }), drawGrid({ seed: 28, quarters, glare: [turnedLobe] }))) as [
      never,
      never,
    ];
    expect(presentOf(plain, GLARE).value).toBeLessThan(1);
    const read = presentOf(turned, GLARE);
    const place = (read.detail?.places as { mm: { left: number; top: number; width: number; height: number } }[] | undefined)?.[0];
    if (!place) throw new Error("no place");
    expect(Math.abs(place.mm.left + place.mm.width / 2 - turnedLobe.xMm)).toBeLessThan(2);
    expect(Math.abs(place.mm.top + place.mm.height / 2 - turnedLobe.yMm)).toBeLessThan(2);
  },
);

test("more glare covers more and shines more", async () => {
  const read = await Promise.all(
    [0.03, 0.1, 0.3].map(async (peak) => {
      const [shining] = (await compare(drawGrid({ seed: 29, glare: [{ ...LOBE, peak }] }), drawGrid({ seed: 29, ...OTHER_DEVICE }))) as [
        never,
        never,
      ];
      return { area: presentOf(shining, GLARE).value, peak: presentOf(shining, "glarePeakDeltaL").value };
    }),
  );
  const areas = read.map((each) => each.area);
  const excesses = read.map((each) => each.peak);
  expect(areas).toEqual([...areas].sort((a, b) => a - b));
  expect(excesses).toEqual([...excesses].sort((a, b) => a - b));
});

test("half the exposure, and another tone curve, are not glare", async () => {
  for (const other of [{ cast: [0.5, 0.5, 0.5] as [number, number, number] }, { gamma: 1.3 }, { light: { fallOff: 0.15, across: 0.1 } }]) {
    for (const readings of await compare(drawGrid({ seed: 30 }), drawGrid({ seed: 30, ...other })))
      expect(presentOf(readings, GLARE).value).toBeLessThan(1);
  }
});

test("two copies of one capture have no glare against each other", async () => {
  for (const readings of await compare(drawGrid({ seed: 30 }), drawGrid({ seed: 30 }))) expect(presentOf(readings, GLARE).value).toBe(0);
});

test("captures of different prints are not compared, and the reason says they may not be one print", async () => {
  const [first, second] = (await compare(drawGrid({ seed: 31 }), drawGrid({ seed: 32 }))) as [never, never];
  const reasons = [reasonOf(first, GLARE), reasonOf(second, GLARE)];
  expect(reasons.join()).toContain("may not show the same print");
});

test("a stranger among captures of one print is left out, and the rest are compared", async () => {
  const [first, stranger, third] = (await compare(
    drawGrid({ seed: 33 }),
    drawGrid({ seed: 34 }),
    drawGrid({ seed: 33, ...OTHER_DEVICE }),
  )) as [never, never, never];
  expect(reasonOf(stranger, GLARE)).toContain("may not show the same print");
  expect(presentOf(first, GLARE).detail).toMatchObject({ comparedWith: 1 });
  expect(presentOf(third, GLARE).value).toBeLessThan(0.5);
});

test("pictures of other proportions are not of one print", async () => {
  const [first, second] = (await compare(drawGrid({ seed: 35 }), drawGrid({ seed: 35, widthMm: 60, heightMm: 30 }))) as [never, never];
  expect([reasonOf(first, GLARE), reasonOf(second, GLARE)].join()).toContain("proportions");
});

test("a bend that no smooth surface follows is refused rather than read as glare", async () => {
  const flat = drawGrid({ seed: 36, pxPerMm: 4 });
  const bent = new Float32Array(flat.data.length);
  for (let y = 0; y < flat.heightPx; y++) {
    for (let x = 0; x < flat.widthPx; x++) {
      const from = Math.min(flat.widthPx - 1, Math.max(0, Math.round(x + 4 * Math.sin(y / 9))));
      bent[y * flat.widthPx + x] = flat.data[y * flat.widthPx + from] as number;
    }
  }
  const readings = (await compare(flat, { ...flat, data: bent })).map((each) => reasonOf(each, GLARE));
  expect(readings.join()).toMatch(/could not be lined up/);
});

test("where the size is not known the comparison is made and places are shares only", async () => {
  const glare = [{ ...LOBE, peak: 0.2 }];
  const [shining] = (await compare(
    drawGrid({ seed: 37, knowsSize: false, glare }),
    drawGrid({ seed: 37, knowsSize: false, pxPerMm: 6 }),
  )) as [never, never];
  const read = presentOf(shining, GLARE);
  expect(read.value).toBeGreaterThan(5);
  expect((read.detail?.places as { mm: unknown }[] | undefined)?.[0]?.mm).toBeNull();
});

test("no capture, one capture, tiny and featureless ones are absent, never an error", async () => {
  expect(await compareCaptures([])).toEqual([]);
  expect(reasonOf((await compare(drawGrid({ seed: 38 })))[0] ?? [], GLARE)).toContain("no other capture");
  const pixel: PrintGrid = { widthPx: 1, heightPx: 1, pxPerMm: 4, data: Float32Array.of(0.5) };
  for (const readings of await compare(pixel, pixel)) expect(reasonOf(readings, GLARE)).toContain("too small");
  const flat: PrintGrid = { widthPx: 201, heightPx: 163, pxPerMm: 4, data: new Float32Array(201 * 163).fill(0.4) };
  for (const readings of await compare(flat, flat)) expect(reasonOf(readings, GLARE)).not.toBe("");
  const unseen: PrintGrid = { ...flat, data: new Float32Array(201 * 163).fill(Number.NaN) };
  for (const readings of await compare(unseen, unseen)) expect(reasonOf(readings, GLARE)).not.toBe("");
});
