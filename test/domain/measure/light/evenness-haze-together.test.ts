import { expect, test, vi } from "vitest";
import { layCaptures } from "#domain/measure/laying/lay-captures.ts";
import type { Laid } from "#domain/measure/laying/lay-finely.ts";
import { evennessTogether } from "#domain/measure/light/evenness-together.ts";
import { hazeTogether } from "#domain/measure/light/haze-together.ts";
import { isPresent } from "#domain/measure/reading.ts";
import { drawGrid } from "../../../fixtures/print-grids.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

vi.setConfig({ testTimeout: 60_000 });

const laidOf = (...grids: ReturnType<typeof drawGrid>[]): Laid[] =>
  layCaptures(grids.map((grid, captureId) => ({ captureId, grid }))).flatMap((each) =>
    "coarse" in each ? [{ ...each, fine: null, notFine: "not drawn" }] : [],
  );
/** Light that falls by `share` of its middle from edge to edge. */
const lit = (grid: ReturnType<typeof drawGrid>, share: number) => ({
  ...grid,
  data: grid.data.map((value, at) => value * (1 + share * (0.5 - ((at % grid.widthPx) + 0.5) / grid.widthPx))),
});
const veiled = (grid: ReturnType<typeof drawGrid>, veil: number) => ({ ...grid, data: grid.data.map((value) => value + veil) });
const OTHER = { pxPerMm: 5, offMm: { x: 0.1, y: -0.08 }, blurPx: 1.2, noise: 0.6 };
const plain = drawGrid({ seed: 41 });
const other = drawGrid({ seed: 41, ...OTHER });
const third = drawGrid({ seed: 41, pxPerMm: 4.5, offDeg: 0.1 });
/** Edge to edge 1.15 to 0.85 of the middle. */
const LOST = 100 * (1 - 0.85 / 1.15);

test("of three captures the one that is lit unevenly is found, by as much as it was drawn, and the others stay quiet", () => {
  const [uneven, ...even] = evennessTogether(laidOf(lit(plain, 0.3), other, third));
  const read = presentOf(uneven ?? [], "evennessPercent");
  expect(read).toMatchObject({ reliability: "fair", bound: "lower", detail: { comparedWith: 2 } });
  expect(Math.abs(read.value - LOST)).toBeLessThan(2);
  expect(read.detail?.darkestAt).toMatchObject({ across: 1 });
  for (const readings of even) expect(presentOf(readings, "evennessPercent").value).toBeLessThan(4);
});

/** A bright window, with a rim of half a millimetre, over a part of the picture; in shares of its sides. */
const mirroring = (grid: ReturnType<typeof drawGrid>, side: number) => ({
  ...grid,
  data: grid.data.map((value, at) => {
    const [u, v] = [((at % grid.widthPx) + 0.5) / grid.widthPx, (Math.floor(at / grid.widthPx) + 0.5) / grid.heightPx];
    const insideMm = Math.min(side / 2 - Math.abs(u - 0.35), side / 2 - Math.abs(v - 0.4)) * 50;
    return value + 0.6 / (1 + Math.exp(-4 * insideMm));
  }),
});

test.each([0.3, 0.45])("a bright window over %d of the width of one of three captures is no uneven light, and hides none", (side) => {
  for (const readings of evennessTogether(laidOf(mirroring(plain, side), other, third)))
    expect(presentOf(readings, "evennessPercent").value).toBeLessThan(4);
  const [uneven, ...even] = evennessTogether(laidOf(mirroring(lit(plain, 0.3), side), other, third));
  expect(Math.abs(presentOf(uneven ?? [], "evennessPercent").value - LOST)).toBeLessThan(3);
  for (const readings of even) expect(presentOf(readings, "evennessPercent").value).toBeLessThan(4);
});

test("where a window covers most of the picture, how even the light is cannot be told, and why is said", () => {
  for (const readings of evennessTogether(laidOf(mirroring(plain, 0.66), other, third)))
    expect(reasonOf(readings, "evennessPercent")).toContain("shines over so much of the picture");
});

test("of two captures both get the difference of their lights, weakly, since it may be of either", () => {
  for (const readings of evennessTogether(laidOf(lit(plain, 0.3), other))) {
    const read = presentOf(readings, "evennessPercent");
    expect(read).toMatchObject({ reliability: "weak", bound: "lower", note: expect.stringContaining("a third would tell") });
    expect(Math.abs(read.value - LOST)).toBeLessThan(2);
  }
});

test.each([
  ["another tone curve", drawGrid({ seed: 41, gamma: 1.15 }), 4],
  ["another exposure", drawGrid({ seed: 41, cast: [0.6, 0.6, 0.6] }), 4],
  // a veil lifts dark places more than bright ones, which is partly taken for light
  ["a veil of 1 %", veiled(plain, 0.01), 5],
] as const)("%s is no uneven light", (_, changed, most) => {
  for (const readings of evennessTogether(laidOf(changed, other, third)))
    expect(presentOf(readings, "evennessPercent").value).toBeLessThan(most);
});

test.each([0.05])("a veil of %d over one capture is read there, and nothing is said of the clear ones", (veil) => {
  const [hazy, ...clear] = hazeTogether(laidOf(veiled(plain, veil), other, third));
  const read = presentOf(hazy ?? [], "hazePercent");
  expect(read).toMatchObject({ reliability: "weak", note: expect.stringContaining("Another tone curve") });
  expect(Math.abs(read.value - 100 * veil), `${read.value}`).toBeLessThan(1);
  for (const readings of clear) expect(reasonOf(readings, "hazePercent")).toMatch(/deeper shadows|as deep as/);
});

/** A curve of tones that bends in the middle, as the processing of a device may draw it; no power follows it. */
const bent = (grid: ReturnType<typeof drawGrid>, by: number) => ({
  ...grid,
  data: grid.data.map((value) => {
    const code = Math.max(0, value) ** (1 / 2.2);
    return Math.max(0, code + (by * Math.sin(2 * Math.PI * code)) / (2 * Math.PI)) ** 2.2;
  }),
});
/** As much lighter as a faded print. */
const faded = (grid: ReturnType<typeof drawGrid>) => ({ ...grid, data: grid.data.map((value) => 0.05 + 0.95 * value) });

test.each([8, 9])("a bent tone curve over a faded print is told as veil by no more than a hint, and says what it may be (%d)", (seed) => {
  const captures = laidOf(bent(faded(drawGrid({ seed })), -0.4), faded(drawGrid({ seed, ...OTHER })));
  const told = hazeTogether(captures).flat().filter(isPresent);
  expect(told.map(({ reliability }) => reliability)).toEqual(["weak"]);
  expect(told[0]?.note).toContain("Another tone curve");
});

test.each([43, 10])("a veil that is most of what the darkest tones get is more than a hint (%d)", (seed) => {
  const [hazy] = hazeTogether(laidOf(veiled(drawGrid({ seed }), 0.1), drawGrid({ seed, ...OTHER })));
  const read = presentOf(hazy ?? [], "hazePercent");
  expect(read).toMatchObject({ reliability: "fair", bound: "lower" });
  expect(Math.abs(read.value - 10)).toBeLessThan(1);
});

test("another tone curve and uneven light are no veil", () => {
  for (const changed of [drawGrid({ seed: 41, gamma: 1.15 }), drawGrid({ seed: 41, cast: [0.6, 0.6, 0.6] }), lit(plain, 0.3)])
    for (const readings of hazeTogether(laidOf(changed, other))) expect(reasonOf(readings, "hazePercent")).toMatch(/shadows/);
});

test("a picture without dark places has no tones to tell a veil by", () => {
  const pale = (grid: ReturnType<typeof drawGrid>) => ({ ...grid, data: grid.data.map((value) => 0.4 + 0.5 * value) });
  for (const readings of hazeTogether(laidOf(pale(plain), pale(other))))
    expect(reasonOf(readings, "hazePercent")).toMatch(/too few dark tones/);
});
