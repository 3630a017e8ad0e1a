import { expect, test } from "vitest";
import { borderOf, borderSideAt } from "#domain/measure/border/border.ts";
import { labOf, lightnessOf } from "#domain/measure/colour/lab.ts";
import { SRGB_TO_XYZ_D50 } from "#domain/measure/colour/srgb.ts";
import { borderCast } from "#domain/measure/light/border-cast.ts";
import { borderEvenness } from "#domain/measure/light/border-evenness.ts";
import { borderGlare } from "#domain/measure/light/border-glare.ts";
import type { Point } from "#domain/measure/picture.ts";
import type { Outline } from "#domain/measure/reading.ts";
import { climb, readValue } from "../../../accuracy/ladder.ts";
import { castLadder } from "../../../accuracy/ladders/cast.ts";
import { evennessLadder } from "../../../accuracy/ladders/evenness.ts";
import { type CapturedSheet, captureSheet, SMALL } from "../../../fixtures/captured-sheet.ts";
import { reflected } from "../../../fixtures/defects/reflections.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

const PAPER = [0.8, 0.79, 0.75] as const;

/** Places all over the border, both edges kept 0.8 mm away, spread evenly along and across each side. */
function borderPlaces({ truth }: CapturedSheet): Point[] {
  const { sheet, image } = truth;
  const places: Point[] = [];
  const pairs = [
    ["topLeft", "topRight"],
    ["topRight", "bottomRight"],
    ["bottomRight", "bottomLeft"],
    ["bottomLeft", "topLeft"],
  ] as const;
  for (const [from, to] of pairs) {
    for (let s = 0.5; s < 120; s++) {
      for (let t = 0.5; t < 10; t++) {
        const along = s / 120;
        const across = 0.18 + 0.064 * t;
        const mix = (quad: typeof sheet) => ({
          x: quad[from].x * (1 - along) + quad[to].x * along,
          y: quad[from].y * (1 - along) + quad[to].y * along,
        });
        const [outer, inner] = [mix(sheet), mix(image)];
        places.push({ x: outer.x * (1 - across) + inner.x * across, y: outer.y * (1 - across) + inner.y * across });
      }
    }
  }
  return places;
}

const luminanceOf = (rgb: readonly number[]) => rgb.reduce((sum, value, k) => sum + value * (SRGB_TO_XYZ_D50[3 + k] as number), 0);

const labOfRgb = (rgb: readonly [number, number, number]) => {
  const row = (at: number) => rgb.reduce((sum, value, k) => sum + value * (SRGB_TO_XYZ_D50[at + k] as number), 0);
  return labOf(row(0), row(3), row(6));
};

test("only places on the border, away from both edges, belong to it", () => {
  const { outline, context, truth } = captureSheet({ turnDeg: 0, ppi: 100 });
  const border = borderOf(outline, context);
  if (!border) throw new Error("no border");
  const pxPerMm = 100 / 25.4;
  const at = (xMm: number, yMm: number) =>
    borderSideAt(border, { x: truth.sheet.topLeft.x + xMm * pxPerMm, y: truth.sheet.topLeft.y + yMm * pxPerMm });
  expect(at(22, 2.5)).toBe("top");
  expect(at(41.5, 26)).toBe("right");
  expect(at(22, 48)).toBe("bottom");
  expect(at(2.5, 26)).toBe("left");
  expect(at(22, 26)).toBeNull();
  expect(at(22, 0.5)).toBeNull();
  expect(at(22, 4.5)).toBeNull();
  expect(at(-2, 26)).toBeNull();
});

test("a border narrower than 2 mm, and one cut off by the frame, is not read", () => {
  const narrow = { widthMm: 44, heightMm: 52, border: { left: 1.5, right: 5, top: 5, bottom: 9 } };
  const { outline, context } = captureSheet({ print: narrow, ppi: 100 });
  expect(borderOf(outline, context)?.sides).toEqual(["top", "right", "bottom"]);
  expect(borderOf({ ...outline, sides: { ...outline.sides, top: "cut-off" } }, context)?.sides).toEqual(["right", "bottom"]);
});

test("even light on plain paper is even, has no glare and the paper's own colour", () => {
  const sheet = captureSheet({ seed: 61 });
  const { picture, outline, context } = sheet;
  expect(presentOf(borderEvenness(picture, outline, context), "borderLightnessSpreadPercent").value).toBeLessThan(0.05);
  expect(presentOf(borderGlare(picture, outline, context), "borderGlarePercent").value).toBe(0);
  const cast = presentOf(borderCast(picture, outline, context), "borderCastChroma");
  const [lightness, a, b] = labOfRgb([...PAPER]);
  expect(Math.abs(cast.value - Math.hypot(a, b))).toBeLessThan(0.3);
  expect(Math.abs((cast.detail?.a as number) - a)).toBeLessThan(0.3);
  expect(Math.abs((cast.detail?.b as number) - b)).toBeLessThan(0.3);
  expect(Math.abs((cast.detail?.lightness as number) - lightness)).toBeLessThan(0.3);
  expect(cast).toMatchObject({ reliability: "fair", note: expect.stringContaining("aged paper") });
});

test.each([
  { fallOff: 0.1, across: 0 },
  { fallOff: 0.25, across: 0.1 },
  { fallOff: 0, across: 0.3 },
])("uneven light of fall-off $fallOff and $across across reads as the deviation of L* it makes along the border", ({ fallOff, across }) => {
  const sheet = captureSheet({ light: { fallOff, across }, seed: 62 });
  const { picture, outline, context } = sheet;
  const lightness = borderPlaces(sheet).map(({ x, y }) => {
    const u = (2 * x) / picture.widthPx - 1;
    const v = (2 * y) / picture.heightPx - 1;
    return lightnessOf(luminanceOf(PAPER) * (1 - (fallOff * (u * u + v * v)) / 2) * (1 + (across * u) / 2));
  });
  const mean = lightness.reduce((sum, value) => sum + value, 0) / lightness.length;
  const expected = (100 * Math.sqrt(lightness.reduce((sum, value) => sum + (value - mean) ** 2, 0) / lightness.length)) / mean;
  const read = presentOf(borderEvenness(picture, outline, context), "borderLightnessSpreadPercent").value;
  expect(Math.abs(read / expected - 1)).toBeLessThan(0.1);
});

test("a tinted light adds to the paper's colour, and uneven light leaves it alone", () => {
  const cast = [1, 0.93, 0.8] as const;
  const [, a, b] = labOfRgb([PAPER[0] * cast[0], PAPER[1] * cast[1], PAPER[2] * cast[2]]);
  for (const light of [{}, { fallOff: 0.2, across: 0.1 }]) {
    const { picture, outline, context } = captureSheet({ cast: [...cast], light, seed: 63 });
    const read = presentOf(borderCast(picture, outline, context), "borderCastChroma");
    expect(Math.abs((read.detail?.a as number) - a)).toBeLessThan(0.5);
    expect(Math.abs((read.detail?.b as number) - b)).toBeLessThan(0.8);
    expect(read.reliability).toBe("fair");
  }
});

test("a file of greys tells nothing of the border's colour, and does not pass for neutral", () => {
  const { picture, outline, context } = captureSheet({ seed: 42 });
  const grey = { ...picture, codes: picture.codes.map((_, at, codes) => codes[3 * Math.floor(at / 3) + 1] as number) };
  for (const name of ["borderCastA", "borderCastB", "borderCastChroma"] as const)
    expect(reasonOf(borderCast(grey, outline, context), name)).toMatch(/holds greys only/);
  expect(presentOf(borderEvenness(grey, outline, context), "evennessPercent").value).toBeGreaterThanOrEqual(0);
});

test("half the exposure finds the same glare", () => {
  const glare = [{ x: 90, y: 200, sigmaPx: 25, peak: 0.1 }];
  const full = captureSheet({ glare, seed: 64, bits: 16 });
  const half = captureSheet({ glare: glare.map((lobe) => ({ ...lobe, peak: 0.05 })), cast: [0.5, 0.5, 0.5], seed: 64, bits: 16 });
  const read = ({ picture, outline, context }: CapturedSheet) =>
    presentOf(borderGlare(picture, outline, context), "borderGlarePercent").value;
  expect(read(full)).toBeGreaterThan(1);
  expect(Math.abs(read(half) / read(full) - 1)).toBeLessThan(0.05);
});

test.each([
  { x: 90, y: 200, sigmaPx: 25, peak: 0.1 },
  { x: 250, y: 510, sigmaPx: 20, peak: 0.3 },
  { x: 420, y: 120, sigmaPx: 30, peak: 0.08 },
])("a shining place at $x, $y covers the share of the border where it adds more than 3 % of light", (lobe) => {
  const sheet = captureSheet({ glare: [lobe], seed: 65 });
  const { picture, outline, context } = sheet;
  const border = borderOf(outline, context);
  if (!border) throw new Error("no border");
  let [inside, shining] = [0, 0];
  for (let y = 0; y < picture.heightPx; y += 2) {
    for (let x = 0; x < picture.widthPx; x += 2) {
      if (!borderSideAt(border, { x, y })) continue;
      inside++;
      const added = lobe.peak * Math.exp(-((x - lobe.x) ** 2 + (y - lobe.y) ** 2) / (2 * lobe.sigmaPx ** 2));
      if (added > 0.03 * luminanceOf(PAPER)) shining++;
    }
  }
  const expected = (100 * shining) / inside;
  const read = presentOf(borderGlare(picture, outline, context), "borderGlarePercent");
  expect(expected).toBeGreaterThan(1);
  expect(Math.abs(read.value / expected - 1)).toBeLessThan(0.25);
  expect(read.detail?.places).toHaveLength(1);
});

test("stronger glare covers more", () => {
  const values = [0.02, 0.05, 0.1, 0.3].map((peak) => {
    const { picture, outline, context } = captureSheet({ glare: [{ x: 90, y: 200, sigmaPx: 25, peak }], seed: 66 });
    return presentOf(borderGlare(picture, outline, context), "borderGlarePercent").value;
  });
  expect(values[0]).toBe(0);
  expect(values).toEqual([...values].sort((a, b) => a - b));
});

test("a clipped border hides light, colour and glare, and each says so", () => {
  const { picture, outline, context } = captureSheet({ cast: [1.6, 1.6, 1.6], seed: 67 });
  expect(reasonOf(borderEvenness(picture, outline, context), "borderLightnessSpreadPercent")).toContain("clipped");
  expect(reasonOf(borderCast(picture, outline, context), "borderCastChroma")).toContain("clipped");
  expect(reasonOf(borderGlare(picture, outline, context), "borderGlarePercent")).toContain("clipped");
});

test("unevenness asks for a border on three sides", () => {
  const { picture, outline, context } = captureSheet({
    print: { widthMm: 44, heightMm: 52, border: { left: 1, right: 1, top: 5, bottom: 9 } },
  });
  expect(reasonOf(borderEvenness(picture, outline, context), "borderLightnessSpreadPercent")).toContain("three sides");
  expect(presentOf(borderGlare(picture, outline, context), "borderGlarePercent").reliability).toBe("fair");
});

test("light of two colours makes the border's colour a weak reading", () => {
  const sheet = captureSheet({ seed: 68, noise: 0 });
  const codes = new Uint8Array(sheet.picture.codes);
  for (let at = 0; at < codes.length; at += 3) {
    const share = ((at / 3) % sheet.picture.widthPx) / sheet.picture.widthPx;
    codes[at + 2] = Math.round((codes[at + 2] as number) * (1 - 0.12 * share));
  }
  const picture = { ...sheet.picture, codes };
  expect(presentOf(borderCast(picture, sheet.outline, sheet.context), "borderCastChroma")).toMatchObject({
    reliability: "weak",
    note: expect.stringContaining("changes along the border"),
  });
});

test("without an outline or a border the readings are absent with a reason", () => {
  const { picture, outline, context } = captureSheet({ ppi: 60 });
  const borderless: Outline = { ...outline, image: null };
  for (const measure of [borderGlare, borderEvenness, borderCast]) {
    for (const where of [null, borderless]) {
      for (const reading of measure(picture, where, context)) expect(reading).toMatchObject({ absent: expect.stringMatching(/./) });
    }
  }
});

test("a picture of one pixel is absent, not an error", () => {
  const point = { x: 0, y: 0 };
  const quad = { topLeft: point, topRight: point, bottomRight: point, bottomLeft: point };
  const sides = { top: "seen", right: "seen", bottom: "seen", left: "seen" } as const;
  const outline: Outline = { sheet: quad, image: quad, cornerSpreadPx: 1, sides };
  const context = contextOf({ sheetWidthMm: SMALL.widthMm, sheetHeightMm: SMALL.heightMm });
  for (const measure of [borderGlare, borderEvenness, borderCast]) {
    for (const reading of measure(pictureOf(Uint8Array.of(9, 9, 9), 1, 1), outline, context)) expect("absent" in reading).toBe(true);
  }
});

test.each([
  { fallOff: 0, across: 0 },
  { fallOff: 0.1, across: 0 },
  { fallOff: 0.25, across: 0.1 },
  { fallOff: 0, across: 0.3 },
])(
  "light of fall-off $fallOff and $across across loses what its darkest place on the border lacks of its brightest",
  ({ fallOff, across }) => {
    const sheet = captureSheet({ light: { fallOff, across }, seed: 161 });
    const { picture, outline, context } = sheet;
    const levels = borderPlaces(sheet).map(({ x, y }) => {
      const u = (2 * x) / picture.widthPx - 1;
      const v = (2 * y) / picture.heightPx - 1;
      return (1 - (fallOff * (u * u + v * v)) / 2) * (1 + (across * u) / 2);
    });
    const expected = 100 * (1 - Math.min(...levels) / Math.max(...levels));
    const read = presentOf(borderEvenness(picture, outline, context), "evennessPercent");
    expect(Math.abs(read.value - expected)).toBeLessThan(1);
    expect(read.reliability).toBe("firm");
  },
);

// common practice, no source: the light is even, the window is not of it
test("a window mirrored by one side of the border is neither uneven light nor the border's colour", () => {
  const window = { shape: "window", xMm: 20, yMm: 3, widthMm: 34, heightMm: 12, turnDeg: 2, peak: 0.16, colour: [0.7, 0.9, 1.1] } as const;
  const [clean, lit] = [[], [window]].map((reflections) =>
    captureSheet({ defects: [reflected(reflections)], seed: 164, print: { ...SMALL, content: "night" } }),
  ) as [CapturedSheet, CapturedSheet];
  const readings = borderEvenness(lit.picture, lit.outline, lit.context);
  expect(presentOf(readings, "evennessPercent")).toMatchObject({
    reliability: "fair",
    bound: "lower",
    note: expect.stringContaining("shine"),
  });
  expect(presentOf(readings, "evennessPercent").value).toBeLessThan(0.5);
  expect(presentOf(readings, "borderLightnessSpreadPercent").value).toBeLessThan(0.2);
  for (const name of ["borderCastA", "borderCastB"] as const) {
    const [without, within] = [clean, lit].map((each) => presentOf(borderCast(each.picture, each.outline, each.context), name).value);
    expect(Math.abs((within as number) - (without as number))).toBeLessThan(0.2);
  }
});

test("one side of the border yellowed makes the loss of light less certain, and least of it is in red", () => {
  const sheet = captureSheet({ seed: 162, noise: 0 });
  const codes = new Uint8Array(sheet.picture.codes);
  for (let at = 0; at < codes.length; at += 3) {
    const share = ((at / 3) % sheet.picture.widthPx) / sheet.picture.widthPx;
    codes[at + 1] = Math.round((codes[at + 1] as number) * (1 - 0.02 * share));
    codes[at + 2] = Math.round((codes[at + 2] as number) * (1 - 0.12 * share));
  }
  const read = presentOf(borderEvenness({ ...sheet.picture, codes }, sheet.outline, sheet.context), "evennessPercent");
  expect(read).toMatchObject({ reliability: "fair", note: expect.stringContaining("yellowed unevenly") });
  const lost = read.detail?.ofEachChannel as { redPercent: number; bluePercent: number };
  expect(lost.redPercent).toBeLessThan(1);
  expect(lost.bluePercent).toBeGreaterThan(8);
});

test("a* and b* of the border have their signs: towards red and yellow above nought, towards green and blue below", () => {
  const read = (cast: [number, number, number]) => {
    const { picture, outline, context } = captureSheet({ cast, print: { ...SMALL, paper: [0.7, 0.7, 0.7] }, seed: 163 });
    const readings = borderCast(picture, outline, context);
    return [presentOf(readings, "borderCastA").value, presentOf(readings, "borderCastB").value] as const;
  };
  for (const cast of [
    [1, 1, 1],
    [1, 0.9, 0.9],
    [0.9, 1, 0.9],
    [0.85, 0.9, 1],
  ] as const) {
    const [, a, b] = labOfRgb([0.7 * cast[0], 0.7 * cast[1], 0.7 * cast[2]]);
    const [readA, readB] = read([...cast]);
    expect(Math.abs(readA - a)).toBeLessThan(0.4);
    expect(Math.abs(readB - b)).toBeLessThan(0.4);
  }
});

test("the ladders of a yellow light and of a lamp on one side are followed", () => {
  for (const [ladder, levels, tolerance] of [
    [castLadder, [0, 20], 0.5],
    [evennessLadder, [0, 20], 1],
  ] as const) {
    for (const { level, seed, measured } of climb(ladder, [164], levels))
      for (const { measure, truth } of ladder.reads) {
        if (Number.isNaN(truth(level, seed))) continue;
        expect(Math.abs(readValue(measured, measure) - truth(level, seed)), `${measure} at ${level}`).toBeLessThan(tolerance);
      }
  }
});
