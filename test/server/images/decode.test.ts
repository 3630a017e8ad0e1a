import { readFileSync } from "node:fs";
import { fromFile } from "geotiff";
import sharp from "sharp";
import { expect, test } from "vitest";
import { labOf } from "#domain/measure/colour/lab.ts";
import { luminanceAt, type Picture, xyzAt } from "#domain/measure/picture.ts";
import { readJpegHeader } from "#server/images/decode.ts";
import { FLOAT_LAB, FLOAT_RGB, littleCms, RELATIVE_COLORIMETRIC } from "#server/images/little-cms.ts";
import { memoryTiff } from "#server/images/memory-tiff.ts";
import { UnreadableImage } from "#server/images/unreadable-image.ts";
import { decoded } from "../../fixtures/decoded.ts";
import { codesAsImage, fileOf, numberedCodes, sample } from "../../fixtures/image-files.ts";
import { greyProfile, matrixProfile, tableProfile } from "../../fixtures/profiles.ts";
import { drawRaw } from "../../fixtures/raw-file.ts";

const codesOf = (picture: Picture) => [...picture.codes];

test.each(["tiff", "png"] as const)("a 16-bit %s keeps every code", async (kind) => {
  const codes = numberedCodes(13, 7, 3, 65535);
  const image = codesAsImage(codes, 13, 7, 3);
  const file = fileOf(await (kind === "tiff" ? image.tiff({ compression: "lzw", predictor: "horizontal" }) : image.png()).toBuffer());
  const picture = await decoded(file, kind);
  expect(picture.maxCode).toBe(65535);
  expect(codesOf(picture)).toEqual([...codes]);
});

test("an 8-bit TIFF keeps every code and is not spread over 16 bits", async () => {
  const codes = numberedCodes(13, 7, 3, 255);
  const picture = await decoded(fileOf(await codesAsImage(codes, 13, 7, 3).tiff({ compression: "deflate" }).toBuffer()), "tiff");
  expect([picture.maxCode, picture.codes.constructor]).toEqual([255, Uint8Array]);
  expect(codesOf(picture)).toEqual([...codes]);
});

test("a 16-bit TIFF written by another program reads as geotiff reads it", async () => {
  const tiff = await fromFile(sample("good/rgb16.tif"));
  const truth = await (await tiff.getImage()).readRasters({ interleave: true });
  tiff.close();
  const picture = await decoded(sample("good/rgb16.tif"), "tiff");
  expect(codesOf(picture)).toEqual([...truth]);
});

test("grey becomes three equal channels, at 16 bits too", async () => {
  const codes = numberedCodes(5, 4, 1, 65535);
  const picture = await decoded(fileOf(await codesAsImage(codes, 5, 4, 1).tiff({ compression: "none" }).toBuffer()), "tiff");
  expect(codesOf(picture)).toEqual([...codes].flatMap((code) => [code, code, code]));
});

test("12-bit grey is widened so that its black stays black and its order stays", async () => {
  const tiff = await fromFile(sample("good/gray12.tif"));
  const truth = await (await tiff.getImage()).readRasters({ interleave: true });
  tiff.close();
  const picture = await decoded(sample("good/gray12.tif"), "tiff");
  expect(picture.maxCode).toBe(65535);
  expect(codesOf(picture).filter((_, index) => index % 3 === 0)).toEqual([...truth].map((code) => (code as number) * 16));
});

test("what is transparent lies on white, at 8 and at 16 bits", async () => {
  for (const maxCode of [255, 65535] as const) {
    const codes = maxCode === 255 ? new Uint8Array(8) : new Uint16Array(8);
    codes.set([0, 0, 0, 0, 0, 0, 0, maxCode]);
    const picture = await decoded(fileOf(await codesAsImage(codes, 2, 1, 4).png().toBuffer()), "png");
    expect(codesOf(picture)).toEqual([maxCode, maxCode, maxCode, 0, 0, 0]);
  }
});

// The eight samples show one portrait, stored in the eight ways of EXIF Orientation (CIPA DC-008).
test.each([2, 3, 4, 5, 6, 7, 8])("orientation %i shows the same upright picture as orientation 1", async (orientation) => {
  const upright = await decoded(sample("good/orient1.jpg"), "jpeg");
  const turned = await decoded(sample(`good/orient${orientation}.jpg`), "jpeg");
  const difference = (other: Picture) =>
    codesOf(upright).reduce((sum, code, index) => sum + Math.abs(code - (other.codes[index] as number)), 0) / upright.codes.length;
  const unturned = await sharp(sample(`good/orient${orientation}.jpg`))
    .raw()
    .toBuffer();
  // the samples were compressed one by one, so that codes differ a little
  expect(difference(turned)).toBeLessThan(6);
  expect(difference({ ...turned, codes: new Uint8Array(unturned) })).toBeGreaterThan(20);
});

test("a region is cut from the upright picture", async () => {
  const file = sample("good/orient6.jpg");
  const whole = await decoded(file, "jpeg");
  const part = await decoded(file, "jpeg", { left: 30, top: 50, width: 20, height: 10 });
  expect([part.widthPx, part.heightPx]).toEqual([20, 10]);
  const expected = Array.from({ length: 10 }, (_, row) =>
    codesOf(whole).slice(((50 + row) * 128 + 30) * 3, ((50 + row) * 128 + 50) * 3),
  ).flat();
  expect(codesOf(part)).toEqual(expected);
});

test("a file without a profile is read as sRGB (IEC 61966-2-1: code 128 has luminance 0.2159)", async () => {
  const file = fileOf(await codesAsImage(new Uint8Array(3).fill(128), 1, 1, 3).png().toBuffer());
  expect(luminanceAt(await decoded(file, "png"), 0, 0)).toBeCloseTo(0.2159, 3);
});

const WIDE = [
  [0.6097, 0.3111, 0.0195],
  [0.2053, 0.6257, 0.0609],
  [0.1492, 0.0632, 0.7446],
] as [number[], number[], number[]];

test.each([255, 65535] as const)(
  "a matrix profile is read as its curves and columns say, codes untouched (codes to %i)",
  async (maxCode) => {
    const codes = numberedCodes(6, 6, 3, maxCode);
    const file = fileOf(memoryTiff({ widthPx: 6, heightPx: 6, channels: 3, data: codes }, matrixProfile(1.8, WIDE)));
    const picture = await decoded(file, "tiff");
    expect(codesOf(picture)).toEqual([...codes]);
    for (let pixel = 0; pixel < 36; pixel++) {
      const light = [0, 1, 2].map((channel) => ((codes[pixel * 3 + channel] as number) / maxCode) ** (461 / 256));
      const truth = [0, 1, 2].map((row) =>
        light.reduce((sum, each, column) => sum + each * ((WIDE[column] as number[])[row] as number), 0),
      );
      const read = xyzAt(picture, pixel % 6, Math.floor(pixel / 6));
      for (const row of [0, 1, 2]) expect(read[row] as number).toBeCloseTo(truth[row] as number, 3);
    }
  },
);

test("colours of a file with a wide-gamut profile are those that Little CMS reads, within half a unit of L*a*b*", async () => {
  const codes = numberedCodes(16, 16, 3, 255) as Uint8Array;
  const icc = (
    await sharp({ create: { width: 1, height: 1, channels: 3, background: "red" } })
      .withIccProfile("p3")
      .png()
      .toBuffer()
      .then((png) => sharp(png).metadata())
  ).icc as Buffer;
  const picture = await decoded(fileOf(memoryTiff({ widthPx: 16, heightPx: 16, channels: 3, data: codes }, icc)), "tiff");
  const lcms = await littleCms();
  const profile = lcms.cmsOpenProfileFromMem(new Uint8Array(icc), icc.length);
  const transform = lcms.cmsCreateTransform(profile, FLOAT_RGB, lcms.cmsCreateLab4Profile(null), FLOAT_LAB, RELATIVE_COLORIMETRIC, 0);
  const truth = lcms.cmsDoTransform(
    transform,
    Float32Array.from(codes, (code) => code / 255),
    256,
  );
  for (let pixel = 0; pixel < 256; pixel++) {
    const read = labOf(...xyzAt(picture, pixel % 16, Math.floor(pixel / 16)));
    expect(Math.hypot(...[0, 1, 2].map((each) => (read[each] as number) - (truth[pixel * 3 + each] as number)))).toBeLessThan(0.5);
  }
});

test("a grey profile gives the light its curve says", async () => {
  const codes = Uint8Array.from([0, 64, 128, 255]);
  const picture = await decoded(fileOf(memoryTiff({ widthPx: 4, heightPx: 1, channels: 1, data: codes }, greyProfile(1))), "tiff");
  expect([0, 1, 2, 3].map((x) => luminanceAt(picture, x, 0))).toEqual([0, 64, 128, 255].map((code) => expect.closeTo(code / 255, 3)));
});

test("a profile that only tables describe is converted to sRGB", async () => {
  const file = fileOf(
    memoryTiff({ widthPx: 2, heightPx: 1, channels: 3, data: Uint8Array.from([0, 0, 0, 255, 255, 255]) }, tableProfile()),
  );
  const mid = fileOf(memoryTiff({ widthPx: 1, heightPx: 1, channels: 3, data: Uint8Array.from([128, 128, 128]) }, tableProfile()));
  expect(codesOf(await decoded(file, "tiff"))).toEqual([0, 0, 0, 255, 255, 255]);
  // The table says L* = 50 for its middle; sRGB shows that as 119 (CIE 15 and IEC 61966-2-1).
  for (const code of codesOf(await decoded(mid, "tiff"))) expect(Math.abs(code - 119)).toBeLessThanOrEqual(1);
});

test("CMYK is converted: paper is white, full ink is dark", async () => {
  const cmyk = sharp({ create: { width: 2, height: 1, channels: 3, background: "white" } })
    .composite([{ input: { create: { width: 1, height: 1, channels: 3, background: "black" } }, left: 1, top: 0 }])
    .toColourspace("cmyk")
    .withIccProfile("cmyk");
  const bytes = await cmyk.tiff({ compression: "none" }).toBuffer();
  expect((await sharp(bytes).metadata()).space).toBe("cmyk");
  const picture = await decoded(fileOf(bytes), "tiff");
  expect(Math.min(...codesOf(picture).slice(0, 3))).toBeGreaterThan(245);
  expect(Math.max(...codesOf(picture).slice(3))).toBeLessThan(60);
});

test("a raw file is developed to its true light and turned upright", async () => {
  const raw = drawRaw(60, 40, (x) => (x < 30 ? 0.18 : 0.5), 6);
  const picture = await decoded(fileOf(raw), "raw");
  expect([picture.widthPx, picture.heightPx, picture.maxCode]).toEqual([40, 60, 65535]);
  expect(luminanceAt(picture, 20, 10)).toBeCloseTo(0.18, 3);
  expect(luminanceAt(picture, 20, 50)).toBeCloseTo(0.5, 3);
});

test("a HEIC file is decoded whole", async () => {
  const picture = await decoded(sample("good/plain.heic"), "heic");
  expect([picture.widthPx, picture.heightPx]).toEqual([1280, 854]);
  const light = Array.from({ length: 100 }, (_, index) => luminanceAt(picture, (index % 10) * 120, Math.floor(index / 10) * 80));
  expect(Math.max(...light) - Math.min(...light)).toBeGreaterThan(0.3);
});

test("a JPEG brings the start of its file, where its tables are", async () => {
  const jpegHeader = await readJpegHeader(sample("good/orient1.jpg"));
  expect(jpegHeader && Buffer.from(jpegHeader)).toEqual(readFileSync(sample("good/orient1.jpg")));
});

test.each([
  ["a raw file cut short", () => drawRaw(60, 40, () => 0.5).subarray(0, 3000), "raw"],
  ["a HEIC file cut short", () => readFileSync(sample("good/plain.heic")).subarray(0, 300_000), "heic"],
  ["a HEIC file of nothing but its name", () => Buffer.from("\0\0\0\x18ftypheic\0\0\0\0", "latin1"), "heic"],
] as const)("%s is refused in words", async (_, bytes, kind) => {
  await expect(decoded(fileOf(bytes()), kind)).rejects.toThrow(UnreadableImage);
});

test("a file that is gone is said to be gone", async () => {
  await expect(decoded("/nowhere/at-all", "jpeg")).rejects.toThrow("is not where it was kept");
});

test("a picture of more pixels than are read is said to be too large, not damaged (ITU-T T.81, B.2.2: height and width in the frame header)", async () => {
  const bytes = await sharp({ create: { width: 8, height: 8, channels: 3, background: "#888" } })
    .jpeg()
    .toBuffer();
  const frame = bytes.indexOf(Buffer.from([0xff, 0xc0]));
  bytes.writeUInt16BE(60_000, frame + 5);
  bytes.writeUInt16BE(60_000, frame + 7);
  await expect(decoded(fileOf(bytes), "jpeg")).rejects.toThrow("has 3,600 megapixels, more than the 300 that are read");
});
