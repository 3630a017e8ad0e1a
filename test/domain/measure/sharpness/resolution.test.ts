import { expect, test } from "vitest";
import { resolution } from "#domain/measure/sharpness/resolution.ts";
import { type CapturedSheet, captureSheet } from "../../../fixtures/captured-sheet.ts";
import { sharpened } from "../../../fixtures/edits.ts";
import { savedAsJpeg } from "../../../fixtures/jpeg-saves.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

const read = ({ picture, outline, context }: CapturedSheet) => resolution(picture, outline, context);

/** Where the response of a Gaussian blur, exp(-2 π² σ² f²), falls to a level, cycles per px. */
const gaussianFall = (sigmaPx: number, level: number) => Math.sqrt(Math.log(1 / level) / 2) / (Math.PI * sigmaPx);

test.each([
  { blurPx: 0.8, turnDeg: 3 },
  { blurPx: 1.2, turnDeg: -6 },
  { blurPx: 2, turnDeg: 2 },
  { blurPx: 1.2, turnDeg: 0.4 },
])("on dark cloth a blur of $blurPx px at $turnDeg° reads within 3 % of its closed form, in cycles per mm", ({ blurPx, turnDeg }) => {
  const readings = read(captureSheet({ blurPx, turnDeg, seed: 31 }));
  const sfr50 = presentOf(readings, "sfr50CyPerMm");
  const sfr10 = presentOf(readings, "sfr10CyPerMm");
  const pxPerMm = 200 / 25.4;
  expect(Math.abs(sfr50.value / (gaussianFall(blurPx, 0.5) * pxPerMm) - 1)).toBeLessThan(0.03);
  expect(Math.abs(sfr10.value / (gaussianFall(blurPx, 0.1) * pxPerMm) - 1)).toBeLessThan(0.03);
  expect(presentOf(readings, "samplingEfficiencyPercent").value).toBeCloseTo((100 * sfr10.value) / (0.5 * pxPerMm), 6);
  expect(sfr50.bound).toBe("lower");
});

test("more blur reads lower", () => {
  const values = [0.6, 0.9, 1.4, 2.2].map((blurPx) => presentOf(read(captureSheet({ blurPx, seed: 32 })), "sfr50CyPerMm").value);
  expect(values).toEqual([...values].sort((a, b) => b - a));
});

test("finer sampling of the same blur on the print reads the same cycles per mm", () => {
  const coarse = presentOf(read(captureSheet({ ppi: 200, blurPx: 1, seed: 33 })), "sfr50CyPerMm").value;
  const fine = presentOf(read(captureSheet({ ppi: 300, blurPx: 1.5, seed: 33 })), "sfr50CyPerMm").value;
  expect(Math.abs(fine / coarse - 1)).toBeLessThan(0.03);
});

test("half the exposure reads the same", () => {
  const full = presentOf(read(captureSheet({ blurPx: 1, seed: 34, bits: 16 })), "sfr50CyPerMm").value;
  const half = presentOf(read(captureSheet({ blurPx: 1, seed: 34, bits: 16, cast: [0.5, 0.5, 0.5] })), "sfr50CyPerMm").value;
  expect(Math.abs(half / full - 1)).toBeLessThan(0.02);
});

test("paper exposed beyond white never reads sharper than it is: the channel that is clipped is left out, then the edge", () => {
  const exposed = (level: number) => read(captureSheet({ blurPx: 1, seed: 46, cast: [1.15 * level, level, 0.85 * level] }));
  const onlyRed = presentOf(exposed(1.2), "sfr50CyPerMm").value;
  expect(Math.abs(onlyRed / (gaussianFall(1, 0.5) * (200 / 25.4)) - 1)).toBeLessThan(0.03);
  expect(reasonOf(exposed(1.8), "sfr50CyPerMm")).toContain("clipped to white");
});

test("a half of the contrast beyond three quarters of half the sampling is no lower bound, and never firm", () => {
  const believed = presentOf(read(captureSheet({ blurPx: 0.6, seed: 45 })), "sfr50CyPerMm");
  const tooFine = presentOf(read(captureSheet({ blurPx: 0.42, seed: 45 })), "sfr50CyPerMm");
  expect(believed.bound).toBe("lower");
  expect(tooFine.bound).toBeUndefined();
  expect(tooFine).toMatchObject({ reliability: "fair", note: expect.stringContaining("Finer than optics") });
});

test("a print lying on its side reads the same cycles per mm", () => {
  const upright = presentOf(read(captureSheet({ blurPx: 1, seed: 35, turnDeg: 3 })), "sfr50CyPerMm").value;
  const turned = presentOf(read(captureSheet({ blurPx: 1, seed: 35, turnDeg: 93 })), "sfr50CyPerMm").value;
  expect(Math.abs(turned / upright - 1)).toBeLessThan(0.03);
});

test("on a white lid the sides of the picture stand in, and the reading is no firmer than fair", () => {
  const sfr50 = presentOf(read(captureSheet({ blurPx: 0.8, background: "white-lid", seed: 36 })), "sfr50CyPerMm");
  expect(Math.abs(sfr50.value / (gaussianFall(0.8, 0.5) * (200 / 25.4)) - 1)).toBeLessThan(0.1);
  expect(sfr50.reliability).toBe("fair");
  expect(sfr50.note).toContain("sides of the picture");
});

test("a shadow line along the sheet does not make the capture look sharper", () => {
  const shadow = { depth: 0.3, widthPx: 4, sides: ["right", "bottom"] as const };
  const sfr50 = presentOf(read(captureSheet({ blurPx: 0.8, background: "white-lid", shadow, seed: 37 })), "sfr50CyPerMm");
  expect(sfr50.value / (gaussianFall(0.8, 0.5) * (200 / 25.4))).toBeLessThan(1.1);
});

test("a sharpened capture is flagged, its resolution weak and no longer a lower bound; an untouched one is not", () => {
  const sheet = captureSheet({ blurPx: 0.6, seed: 38 });
  const untouched = read(sheet);
  const afterwards = read({ ...sheet, picture: sharpened(sheet.picture, 1) });
  expect(presentOf(untouched, "sharpeningOvershootPercent").value).toBeLessThan(1);
  expect(presentOf(untouched, "sfr50CyPerMm").note).toBeUndefined();
  expect(presentOf(afterwards, "sharpeningOvershootPercent").value).toBeGreaterThan(4);
  expect(presentOf(afterwards, "sfr50CyPerMm")).toMatchObject({
    reliability: "weak",
    note: expect.stringContaining("aised by sharpening"),
  });
  expect(presentOf(afterwards, "sfr50CyPerMm").bound).toBeUndefined();
  expect(presentOf(afterwards, "sfr50CyPerMm").value).toBeGreaterThan(1.1 * presentOf(untouched, "sfr50CyPerMm").value);
});

test("what a lossy file overshoots below the flag is told as at most so much, since compression rings at edges too", () => {
  const sheet = captureSheet({ known: { fileKind: "jpeg" }, seed: 58 });
  const read60 = presentOf(read({ ...sheet, picture: savedAsJpeg(sheet.picture, 60) }), "sharpeningOvershootPercent");
  expect(read60).toMatchObject({ bound: "upper", note: expect.stringContaining("rings at edges") });
  expect(presentOf(read(captureSheet({ seed: 58 })), "sharpeningOvershootPercent").bound).toBeUndefined();
});

test("stronger sharpening overshoots more", () => {
  const sheet = captureSheet({ blurPx: 0.6, seed: 39 });
  const values = [0.3, 0.6, 1, 1.5].map(
    (strength) => presentOf(read({ ...sheet, picture: sharpened(sheet.picture, strength) }), "sharpeningOvershootPercent").value,
  );
  expect(values).toEqual([...values].sort((a, b) => a - b));
});

test("sharp sides exactly along the pixels are not read, and the reason says what would help", () => {
  const readings = read(captureSheet({ blurPx: 0.6, turnDeg: 0, seed: 40 }));
  expect(reasonOf(readings, "sfr50CyPerMm")).toContain("a turn of 2 to 5°");
});

test("blurred sides along the pixels are read with a wider spread", () => {
  const along = presentOf(read(captureSheet({ blurPx: 1.5, turnDeg: 0, seed: 41 })), "sfr50CyPerMm");
  const leaning = presentOf(read(captureSheet({ blurPx: 1.5, turnDeg: 3, seed: 41 })), "sfr50CyPerMm");
  expect(along.spread as number).toBeGreaterThan(3 * (leaning.spread as number));
});

test("where the size is not known, efficiency is read and cycles per mm are not", () => {
  const readings = read(captureSheet({ blurPx: 1, seed: 42, known: { sheetWidthMm: null, sheetHeightMm: null } }));
  expect(reasonOf(readings, "sfr50CyPerMm")).toContain("size is not known");
  expect(presentOf(readings, "samplingEfficiencyPercent").value).toBeGreaterThan(50);
});

test("a side cut off by the frame is not used", () => {
  const sides = { top: "seen", right: "cut-off", bottom: "seen", left: "cut-off" } as const;
  const sheet = captureSheet({ blurPx: 1, seed: 43, print: { widthMm: 80, heightMm: 60 } });
  const readings = read({ ...sheet, outline: { ...sheet.outline, image: null, sides } });
  expect(presentOf(readings, "sfr50CyPerMm").note).toContain("Read down the frame only");
});

test("noise as strong as the edge leaves nothing to read", () => {
  const plain = { widthMm: 80, heightMm: 60, paper: [0.2, 0.2, 0.2] as [number, number, number], content: "pale-wall" as const };
  const sheet = captureSheet({ print: plain, ground: [0.18, 0.18, 0.18], noise: 6, seed: 44 });
  expect(reasonOf(resolution(sheet.picture, { ...sheet.outline, image: null }, sheet.context), "sfr50CyPerMm")).not.toBe("");
});

test("without an outline everything is absent", () => {
  const { picture, context } = captureSheet({ ppi: 60 });
  for (const reading of resolution(picture, null, context)) expect("absent" in reading).toBe(true);
});

test("a picture of one pixel is absent, not an error", () => {
  const point = { x: 0, y: 0 };
  const quad = { topLeft: point, topRight: point, bottomRight: point, bottomLeft: point };
  const sides = { top: "seen", right: "seen", bottom: "seen", left: "seen" } as const;
  const outline = { sheet: quad, image: quad, cornerSpreadPx: 1, sides };
  const readings = resolution(pictureOf(Uint8Array.of(1, 2, 3), 1, 1), outline, contextOf({ sheetWidthMm: 88, sheetHeightMm: 107 }));
  for (const reading of readings) expect("absent" in reading).toBe(true);
});
