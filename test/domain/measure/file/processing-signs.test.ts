import { expect, test } from "vitest";
import { type FileClaims, fileClaimsOf } from "#domain/capture/file-claims.ts";
import { processingSigns } from "#domain/measure/file/processing-signs.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

const picture = pictureOf(Uint8Array.of(1, 2, 3), 1, 1);

const FROM_DEVICE = {
  Make: "maker",
  Model: "device",
  ExposureTime: 0.01,
  FNumber: 5.6,
  DateTimeOriginal: "2021:05:06 12:13:14",
  ModifyDate: "2021:05:06 12:13:14",
  ExifImageWidth: 4000,
  ExifImageHeight: 3000,
};

const whole = { fileWidthPx: 3000, fileHeightPx: 4000, tiffCompression: null };
const claims = (exif: Record<string, unknown>, file: Partial<typeof whole> = {}, xmp = {}): FileClaims =>
  fileClaimsOf(exif, xmp, { ...whole, ...file });
const read = (fileClaims: FileClaims, fileKind = "jpeg") =>
  presentOf(processingSigns(picture, null, contextOf({ fileKind, fileClaims })), "processingSignCount");

test("a file as a camera wrote it, turned upright, shows no sign, and that is said to prove nothing", () => {
  expect(read(claims(FROM_DEVICE))).toMatchObject({ value: 0, reliability: "weak", note: expect.stringContaining("proves nothing") });
});

test.each([
  [
    "made smaller",
    claims(FROM_DEVICE, { fileWidthPx: 1200, fileHeightPx: 1600 }),
    "4000 × 3000 px and the file holds 1600 × 1200: it was made smaller",
  ],
  ["cropped", claims(FROM_DEVICE, { fileWidthPx: 3000, fileHeightPx: 3000 }), "cropped afterwards"],
  ["enlarged", claims(FROM_DEVICE, { fileWidthPx: 6000, fileHeightPx: 8000 }), "enlarged afterwards"],
  [
    "changed later",
    claims({ ...FROM_DEVICE, ModifyDate: "2021:05:08 09:00:00" }),
    "taken at 2021-05-06 12:13:14 and changed at 2021-05-08 09:00:00",
  ],
  ["saved by a program", claims({ Software: "Program 3" }), "program that saved it (“Program 3”) and no device"],
  ["robbed of its time", claims({ Make: "maker", ExposureTime: 0.01 }), "but no time"],
  ["of a service's size", claims({}, { fileWidthPx: 1536, fileHeightPx: 2048 }), "exactly 2048 px long"],
  ["zoomed", claims({ ...FROM_DEVICE, DigitalZoomRatio: 2 }), "enlarged it by 2.0 times"],
  ["put together", claims({ ...FROM_DEVICE, 42080: 3 }), "several exposures"],
  ["sharpened", claims({ ...FROM_DEVICE, Sharpness: 2 }), "sharpen strongly"],
  ["edited", claims(FROM_DEVICE, {}, { History: [{}] }), "lists edits"],
])("a file %s says so, once", (_, fileClaims, words) => {
  const reading = read(fileClaims);
  expect(reading).toMatchObject({ value: 1, reliability: "fair", note: expect.stringContaining(words) });
  expect(reading.detail?.signs).toHaveLength(1);
});

test("a kind of file that devices do not write is a program's", () => {
  expect(read(claims({}), "webp").note).toContain("A program made it");
});

test("a scanner's TIFF that names its program, and an odd size without a word, are no signs", () => {
  expect(read(claims({ Software: "Scan 2", ModifyDate: "2021:05:06 12:13:14" }), "tiff").value).toBe(0);
  expect(read(claims({}, { fileWidthPx: 1533, fileHeightPx: 2047 })).value).toBe(0);
});

test("strange tags are as if nothing had been said, and without any look it is absent", () => {
  const strange = {
    ExifImageWidth: "wide",
    ExifImageHeight: -1,
    DateTimeOriginal: "0000:00:00 00:00:00",
    ModifyDate: {},
    Sharpness: "2",
    DigitalZoomRatio: Number.NaN,
  };
  expect(read(claims({ ...strange, Make: "maker", ExposureTime: 1 })).value).toBe(0);
  expect(reasonOf(processingSigns(picture, null, contextOf({ fileKind: "jpeg" })), "processingSignCount")).toContain("not looked into");
});
