import { expect, test } from "vitest";
import { fileClaimsOf } from "#domain/capture/file-claims.ts";
import { fileFacts } from "#domain/measure/file/file-facts.ts";
import { random } from "../../../fixtures/picture-scenes.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

const SIDE = 150;

/** A 16-bit picture whose codes come from a number 0..1 at each place. */
const deep = (codeOf: (share: number) => number, side = SIDE) =>
  pictureOf(
    Uint16Array.from({ length: side * side * 3 }, (_, index) => codeOf(random(index, 3, 5))),
    side,
    side,
  );

const bitsOf = (picture: ReturnType<typeof deep>, bitsPerChannel = 16) =>
  fileFacts(picture, null, contextOf({ fileKind: "tiff", bitsPerChannel }));

test.each([
  ["8 bits times 257", (share: number) => Math.floor(share * 256) * 257, 8],
  ["8 bits shifted up", (share: number) => Math.floor(share * 256) << 8, 8],
  ["8 bits under a tone curve", (share: number) => Math.round(65535 * (Math.floor(share * 256) / 255) ** 1.3), 8],
  ["12 bits shifted up", (share: number) => Math.floor(share * 4096) << 4, 12],
])("a 16-bit file that holds %s is told from its codes", (_, codeOf, bits) => {
  const read = presentOf(bitsOf(deep(codeOf)), "effectiveBitDepth");
  expect(read).toMatchObject({ value: bits, reliability: "firm", note: expect.stringContaining("stored with 16 bits") });
});

test("a true 16-bit file shows no sign of fewer bits, and more is not claimed", () => {
  const read = presentOf(bitsOf(deep((share) => Math.floor(share * 65536))), "effectiveBitDepth");
  expect(read).toMatchObject({ value: 16, reliability: "fair", note: expect.stringContaining("No sign of fewer bits") });
});

test("one channel of 16 bits among two of 8 counts as 16", () => {
  const picture = deep((share) => Math.floor(share * 256) * 257);
  const codes = new Uint16Array(picture.codes);
  for (let at = 2; at < codes.length; at += 3) codes[at] = Math.floor(65536 * random(at, 4, 5));
  expect(presentOf(bitsOf({ ...picture, codes }), "effectiveBitDepth").value).toBe(16);
});

test("an 8-bit file is what it says, also below 8 bits; a deeper one read as 8 says so", () => {
  const picture = pictureOf(Uint8Array.of(1, 2, 3), 1, 1);
  const read = (bitsPerChannel: number) => presentOf(fileFacts(picture, null, contextOf({ bitsPerChannel })), "effectiveBitDepth");
  expect(read(8)).toMatchObject({ value: 8, reliability: "firm" });
  expect(read(1).value).toBe(1);
  expect(read(10)).toMatchObject({ value: 8, bound: "lower", note: expect.stringContaining("10 bits") });
});

test("a 16-bit picture too plain or too small cannot tell", () => {
  expect(reasonOf(bitsOf(deep(() => 30000)), "effectiveBitDepth")).toContain("too few different values");
  expect(reasonOf(bitsOf(deep((share) => Math.floor(share * 65536), 20)), "effectiveBitDepth")).toContain("too few pixels");
});

test.each([
  ["jpeg", 0, "firm"],
  ["png", 1, "firm"],
  ["tiff", 1, "fair"],
  ["raw", 1, "fair"],
  ["webp", 0, "fair"],
  ["avif", 0, "fair"],
  ["heic", 0, "fair"],
])("a %s file reads %d for lossless, %s", (fileKind, value, reliability) => {
  const read = presentOf(fileFacts(pictureOf(Uint8Array.of(1, 2, 3), 1, 1), null, contextOf({ fileKind })), "lossless");
  expect(read).toMatchObject({ value, reliability });
});

test("an unknown kind is absent, and only a JPEG has a JPEG quality", () => {
  const picture = pictureOf(Uint8Array.of(1, 2, 3), 1, 1);
  expect(reasonOf(fileFacts(picture, null, contextOf({ fileKind: "bmp" })), "lossless")).toContain("bmp");
  expect(reasonOf(fileFacts(picture, null, contextOf({ fileKind: "png" })), "jpegQuality")).toContain("no JPEG");
});

test("a TIFF that holds JPEG data is told so, and that its tables were not looked into", () => {
  const fileClaims = fileClaimsOf({}, {}, { fileWidthPx: 1, fileHeightPx: 1, tiffCompression: 7 });
  const readings = fileFacts(pictureOf(Uint8Array.of(1, 2, 3), 1, 1), null, contextOf({ fileKind: "tiff", fileClaims }));
  expect(reasonOf(readings, "jpegQuality")).toMatch(/a TIFF that holds JPEG data/);
});

test.each([
  ["no header", null],
  ["an empty header", new Uint8Array(0)],
  ["a header of another kind", Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 0])],
  ["a header cut off inside its table", Uint8Array.from([0xff, 0xd8, 0xff, 0xdb, 0, 67, 0, 16, 11, 10])],
  ["a header of segments without length", Uint8Array.from([0xff, 0xd8, 0xff, 0xdb, 0, 0, 0xff, 0xdb, 0, 0])],
  ["a header that ends in its marker", Uint8Array.from([0xff, 0xd8, 0xff, 0xff, 0xff, 0xff])],
])("%s leaves the JPEG quality absent", (_, jpegHeader) => {
  const readings = fileFacts(pictureOf(Uint8Array.of(1, 2, 3), 1, 1), null, contextOf({ fileKind: "jpeg", jpegHeader }));
  expect(reasonOf(readings, "jpegQuality")).toContain("could not be read");
});

test("8 bits that were turned by a small angle in 16 show no sign of 8 bits, and no more is claimed", () => {
  // between two neighbours of 8 bits, at a share that changes from place to place
  const between = deep((share) => {
    const [one, other, mix] = [share, (share * 97) % 1, (share * 7919) % 1].map((each, k) => (k < 2 ? 257 * Math.floor(256 * each) : each));
    return Math.round((one as number) * (1 - (mix as number)) + (other as number) * (mix as number));
  });
  expect(presentOf(bitsOf(between), "effectiveBitDepth")).toMatchObject({
    value: 16,
    reliability: "fair",
    note: expect.stringContaining("resized would look the same"),
  });
});

test.each([
  [1, 1],
  [5, 1],
  [8, 1],
  [7, 0],
])("a TIFF whose compression is %d reads %d for lossless, and firmly", (tiffCompression, value) => {
  const fileClaims = fileClaimsOf({}, {}, { fileWidthPx: 1, fileHeightPx: 1, tiffCompression });
  const read = presentOf(fileFacts(pictureOf(Uint8Array.of(1, 2, 3), 1, 1), null, contextOf({ fileKind: "tiff", fileClaims })), "lossless");
  expect(read).toMatchObject({ value, reliability: "firm" });
});
