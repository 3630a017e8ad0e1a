import { expect, test } from "vitest";
import { layCaptures } from "#domain/measure/laying/lay-captures.ts";
import { makeGrid } from "#domain/measure/laying/print-grid.ts";
import { glareTogether } from "#domain/measure/light/glare-together.ts";
import { isPresent, type Reading } from "#domain/measure/reading.ts";
import { type CapturedSheet, captureSheet, SMALL } from "../../../fixtures/captured-sheet.ts";
import { type Reflection, reflected } from "../../../fixtures/defects/reflections.ts";
import type { ContentKind } from "../../../fixtures/picture-scenes.ts";

const PICTURE_MM2 = (SMALL.widthMm - 10) * (SMALL.heightMm - 14);

/** A window over a share of the picture, at another place and angle for each seed. */
const window = (share: number, peak: number, seed: number): Reflection => ({
  shape: "window",
  xMm: 20 + (seed % 5),
  yMm: 23 + (seed % 3),
  widthMm: Math.sqrt(share * PICTURE_MM2 * 0.9),
  heightMm: Math.sqrt((share * PICTURE_MM2) / 0.9),
  turnDeg: 10 * (seed % 4),
  peak,
  rimMm: 0.8,
});
/** A lamp so bright that the file is clipped there. */
const lamp = (seed: number): Reflection => ({
  shape: "lamp",
  xMm: 18 + (seed % 4),
  yMm: 26,
  widthMm: 15,
  heightMm: 15,
  peak: 1.5,
  rimMm: 2,
});

/** Exposed so many times too long, and seen by another device with a reflection. */
function pairOf(content: ContentKind, seed: number, times: number, reflections: readonly Reflection[]): [CapturedSheet, CapturedSheet] {
  const print = { ...SMALL, content };
  return [
    captureSheet({ seed, print, ppi: 130, turnDeg: 2, noiseSeed: 7 * seed, cast: [times, times, times] }),
    captureSheet({ seed, print, ppi: 140, turnDeg: -1, blurPx: 0.8, noiseSeed: 7 * seed + 1, defects: [reflected(reflections)] }),
  ];
}

/** The glare of both, laid in this order and in the other. */
function glaresOf(pair: readonly [CapturedSheet, CapturedSheet]): [Reading, Reading][] {
  const grids = pair.map(({ picture, outline, context }) => makeGrid(picture, outline, context));
  return [
    [0, 1],
    [1, 0],
  ].map((order) => {
    const laid = layCaptures(order.flatMap((captureId) => grids[captureId] ?? []).map((grid, captureId) => ({ captureId, grid })));
    const read = glareTogether(laid.flatMap((each) => ("coarse" in each ? [{ ...each, fine: null, notFine: "not drawn" }] : [])));
    return [0, 1].map((captureId) => read[order.indexOf(captureId)]?.find(({ name }) => name === "glareAreaPercent")) as [Reading, Reading];
  });
}

/** Of the picture, percent; what is read is a share of the sheet. */
const shareOf = (reading: Reading): number =>
  isPresent(reading) ? (reading.value * SMALL.widthMm * SMALL.heightMm) / PICTURE_MM2 : Number.NaN;

test.each([
  ["scene", 611],
  ["scene", 612],
  ["scene", 613],
  ["night", 615],
  ["night", 614],
] as const)(
  "a window over a third of a %s (print %d) is told of the capture that mirrors it, not of the overexposed one, in either order",
  (content, seed) => {
    for (const [overexposed, mirroring] of glaresOf(pairOf(content, seed, 2.2, [window(0.3, 0.12, seed)]))) {
      expect(shareOf(mirroring)).toBeGreaterThan(25);
      expect(shareOf(overexposed)).toBeLessThan(2);
    }
  },
);

test.each([621, 622, 623])("which of two mirrors a window over half of print %d or more is not told, and what would tell is", (seed) => {
  for (const share of [0.5, 0.65])
    for (const glares of glaresOf(pairOf("scene", seed, 1.6, [window(share, 0.15, seed)])))
      for (const glare of glares)
        expect(isPresent(glare) ? glare.value : glare.absent).toContain(
          "a third capture with the print turned by 90° under the same light, or with the light moved, would tell",
        );
});

test.each([632, 703, 706])("what is clipped to white in an overexposed capture of print %d is no glare in the other", (seed) => {
  for (const glares of glaresOf(pairOf("scene", seed, 2.2, []))) for (const glare of glares) expect(shareOf(glare)).toBeLessThan(1.5);
});

test.each([641, 642])("a lamp that is itself clipped to white is found over print %d, beside an overexposed capture too", (seed) => {
  for (const times of [1, 1.8]) {
    for (const [plain, mirroring] of glaresOf(pairOf("scene", seed, times, [lamp(seed)]))) {
      expect(shareOf(mirroring)).toBeGreaterThan(8);
      expect(shareOf(plain)).toBeLessThan(2);
    }
  }
});

test.each([651, 652, 653])(
  "a window in the picture of print %d is told as a share of the sheet, and never as more than was drawn",
  (seed) => {
    const pair = pairOf("scene", seed, 1.4, [window(0.25, 0.3, seed)]);
    const withSheets = pair.map(({ picture, outline, context }) => {
      const grid = makeGrid(picture, outline, context);
      if (!grid) throw new Error("the drawn print is too small");
      return { ...grid, blur: { sheet: outline.sheet, varianceMm2: null } };
    });
    const laid = layCaptures(withSheets.map((grid, captureId) => ({ captureId, grid })));
    const read = glareTogether(laid.flatMap((each) => ("coarse" in each ? [{ ...each, fine: null, notFine: "not drawn" }] : [])));
    const [plain, mirroring] = read.map((readings) => shareOf(readings.find(({ name }) => name === "glareAreaPercent") as Reading));
    // its rim of 0.8 mm adds 1 % of white as far as 1.83 standard deviations from its half height (normal distribution, P = 1/30)
    const reachMm = 1.83 * 0.8;
    const [wideMm, highMm] = [0.9, 1 / 0.9].map((proportion) => Math.sqrt(0.25 * PICTURE_MM2 * proportion) + 2 * reachMm) as [
      number,
      number,
    ];
    const drawn = (100 * wideMm * highMm) / PICTURE_MM2;
    expect(mirroring).toBeLessThanOrEqual(drawn);
    expect(mirroring).toBeGreaterThan(0.8 * drawn);
    expect(plain).toBe(0);
  },
);
