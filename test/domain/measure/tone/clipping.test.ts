import { expect, test } from "vitest";
import { fileClaimsOf } from "#domain/capture/file-claims.ts";
import { loopsInFrame, maskOfLoops } from "#domain/measure/marked-area.ts";
import type { Picture } from "#domain/measure/picture.ts";
import type { Outline } from "#domain/measure/reading.ts";
import { clipping } from "#domain/measure/tone/clipping.ts";
import { climb, readValue } from "../../../accuracy/ladder.ts";
import { clippingLadder } from "../../../accuracy/ladders/clipping.ts";
import { captureSheet } from "../../../fixtures/captured-sheet.ts";
import { random } from "../../../fixtures/picture-scenes.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

const WIDTH = 40;
const HEIGHT = 30;

/** Codes 100 to 139 everywhere, then whatever the test puts in. */
function toned(change: (codes: Uint8Array, at: (x: number, y: number) => number) => void = () => {}): Picture {
  const codes = Uint8Array.from({ length: WIDTH * HEIGHT * 3 }, (_, index) => 100 + Math.floor(40 * random(index, 1, 7)));
  change(codes, (x, y) => (y * WIDTH + x) * 3);
  return pictureOf(codes, WIDTH, HEIGHT);
}

const lossless = contextOf({ fileKind: "png" });

test("a patch of 10 × 6 px stuck in one channel is 60 of 1,200 px, that is 5 %", () => {
  const picture = toned((codes, at) => {
    for (let y = 5; y < 11; y++) for (let x = 20; x < 30; x++) codes[at(x, y) + 1] = 255;
  });
  const highlights = presentOf(clipping(picture, null, lossless), "clippedHighlightsPercent");
  expect(highlights.value).toBe(5);
  expect(highlights.detail).toMatchObject({ area: "frame", channels: { red: 0, green: 5, blue: 0 } });
  expect(presentOf(clipping(picture, null, lossless), "clippedShadowsPercent").value).toBe(0);
});

test("where it is stuck is marked, pixel by pixel in a small frame", () => {
  const picture = toned((codes, at) => {
    for (let y = 5; y < 11; y++) for (let x = 20; x < 30; x++) codes[at(x, y) + 1] = 255;
  });
  const frame = { widthPx: WIDTH, heightPx: HEIGHT };
  const marked = (name: "clippedHighlightsPercent" | "clippedShadowsPercent") =>
    maskOfLoops(loopsInFrame(presentOf(clipping(picture, null, lossless), name).area ?? [], null, frame), frame);
  marked("clippedHighlightsPercent").forEach((value, at) => {
    const [x, y] = [at % WIDTH, Math.floor(at / WIDTH)];
    expect(value, `${x}, ${y}`).toBe(x >= 20 && x < 30 && y >= 5 && y < 11 ? 255 : 0);
  });
  expect(marked("clippedShadowsPercent").some((value) => value > 0)).toBe(false);
});

test("a pixel stuck in two channels counts once, and each channel counts it", () => {
  const picture = toned((codes, at) => {
    for (let y = 0; y < 2; y++) for (let x = 0; x < 6; x++) codes.fill(0, at(x, y), at(x, y) + 2);
  });
  const shadows = presentOf(clipping(picture, null, lossless), "clippedShadowsPercent");
  expect(shadows.value).toBe(1);
  expect(shadows.detail).toMatchObject({ channels: { red: 1, green: 1, blue: 0 } });
});

test("single pixels and lines one pixel wide are not clipping", () => {
  const picture = toned((codes, at) => {
    for (let x = 0; x < WIDTH; x++) codes.fill(255, at(x, 9), at(x, 9) + 3);
    for (let y = 12; y < HEIGHT; y += 3) for (let x = 0; x < WIDTH; x += 3) codes.fill(0, at(x, y), at(x, y) + 3);
  });
  for (const reading of clipping(picture, null, lossless)) expect(reading).toMatchObject({ value: 0 });
});

test("values piled up before the end of the scale are stuck too, and the note says so", () => {
  const picture = toned((codes, at) => {
    for (let y = 5; y < 15; y++) for (let x = 10; x < 34; x++) codes.fill(247, at(x, y), at(x, y) + 3);
  });
  const highlights = presentOf(clipping(picture, null, lossless), "clippedHighlightsPercent");
  expect(highlights.value).toBe(20);
  expect(highlights.note).toContain("before the end of the scale");
});

test("values that thin out towards the end are not stuck", () => {
  const codes = Uint8Array.from({ length: WIDTH * HEIGHT * 3 }, (_, index) => Math.floor(251 * Math.sqrt(random(index, 1, 8))));
  for (const reading of clipping(pictureOf(codes, WIDTH, HEIGHT), null, lossless)) expect(reading).toMatchObject({ value: 0 });
});

test("lossy compression spreads white over 253 to 255: all of it counts in a JPEG, only 255 in a PNG", () => {
  const picture = toned((codes, at) => {
    for (let y = 0; y < 10; y++) for (let x = 0; x < WIDTH; x++) codes.fill(x % 4 === 3 ? 253 : 255, at(x, y), at(x, y) + 3);
  });
  const jpeg = presentOf(clipping(picture, null, contextOf({ fileKind: "jpeg" })), "clippedHighlightsPercent").value;
  const png = presentOf(clipping(picture, null, lossless), "clippedHighlightsPercent").value;
  const fileClaims = fileClaimsOf({}, {}, { fileWidthPx: WIDTH, fileHeightPx: HEIGHT, tiffCompression: 7 });
  const jpegInTiff = clipping(picture, null, contextOf({ fileKind: "tiff", fileClaims }));
  expect(presentOf(jpegInTiff, "clippedHighlightsPercent").value, "JPEG data in a TIFF").toBeCloseTo(jpeg, 9);
  expect(jpeg).toBeCloseTo(100 / 3, 6);
  expect(png).toBeCloseTo(25, 6);
});

test("a 16-bit picture is read on its own scale", () => {
  const codes = Uint16Array.from({ length: WIDTH * HEIGHT * 3 }, (_, index) =>
    index < WIDTH * 3 * 3 ? 65535 : 20000 + Math.floor(9000 * random(index, 1, 9)),
  );
  const picture = pictureOf(codes, WIDTH, HEIGHT);
  expect(presentOf(clipping(picture, null, lossless), "clippedHighlightsPercent").value).toBe(10);
});

test("more light clips more", () => {
  const values = [1, 3, 6].map((gain) => {
    const { picture, outline, context } = captureSheet({ cast: [gain, gain, gain], seed: 51 });
    return presentOf(clipping(picture, outline, context), "clippedHighlightsPercent").value;
  });
  expect(values[0]).toBeLessThan(0.5);
  expect(values[2] as number).toBeGreaterThan(values[1] as number);
});

test("with an outline the picture is read and the border apart, and the ground is not read at all", () => {
  // borders at white, ground at black, picture in between
  const paper: [number, number, number] = [1, 1, 1];
  const print = { widthMm: 44, heightMm: 52, border: { left: 5, right: 5, top: 5, bottom: 9 }, paper, content: "pale-wall" as const };
  const { picture, outline, context } = captureSheet({ print, ground: [0, 0, 0], seed: 52, noise: 0 });
  const readings = clipping(picture, outline, context);
  const highlights = presentOf(readings, "clippedHighlightsPercent");
  expect(highlights).toMatchObject({ value: 0, reliability: "firm" });
  expect(highlights.detail).toMatchObject({ border: { all: expect.closeTo(100, 0) } });
  const { widthPx, heightPx } = picture;
  expect(loopsInFrame(highlights.area ?? [], outline, { widthPx, heightPx }), "what is marked is what is counted").toEqual([]);
  expect(presentOf(readings, "clippedShadowsPercent").value).toBe(0);
  const frame = clipping(picture, null, context);
  expect(presentOf(frame, "clippedShadowsPercent").value).toBeGreaterThan(20);
  expect(presentOf(frame, "clippedShadowsPercent")).toMatchObject({ reliability: "fair", note: expect.stringContaining("whole frame") });
});

test("without a border told apart the sheet is read, and the note says so", () => {
  const { picture, outline, context } = captureSheet({ seed: 53, ppi: 100 });
  const sheetOnly: Outline = { ...outline, image: null };
  expect(presentOf(clipping(picture, sheetOnly, context), "clippedHighlightsPercent")).toMatchObject({
    reliability: "fair",
    note: expect.stringContaining("whole sheet"),
    detail: { area: "sheet" },
  });
});

test.each([
  ["one pixel", 1, 1],
  ["one row", 5, 1],
  ["one column", 1, 7],
])("a picture of %s is absent or read, never an error", (_, width, height) => {
  const readings = clipping(pictureOf(new Uint8Array(width * height * 3), width, height), null, lossless);
  expect(reasonOf(readings, "clippedHighlightsPercent")).toContain("too few pixels");
});

test("odd sizes are read to the last row and column", () => {
  const codes = new Uint8Array(7 * 5 * 3).fill(128);
  for (const [x, y] of [
    [5, 3],
    [6, 3],
    [5, 4],
    [6, 4],
  ] as const)
    codes.fill(255, (y * 7 + x) * 3, (y * 7 + x) * 3 + 3);
  expect(presentOf(clipping(pictureOf(codes, 7, 5), null, lossless), "clippedHighlightsPercent").value).toBeCloseTo((100 * 4) / 35, 6);
});

test("the ladder of burnt discs is followed", () => {
  for (const { level, measured } of climb(clippingLadder, [57], [0, 2, 8]))
    expect(Math.abs(readValue(measured, "clippedHighlightsPercent") - level)).toBeLessThan(0.05 + 0.05 * level);
});
