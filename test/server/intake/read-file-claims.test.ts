import sharp from "sharp";
import { expect, test } from "vitest";
import { processingSigns } from "#domain/measure/file/processing-signs.ts";
import { readFileClaims } from "#server/intake/read-file-claims.ts";
import { fileOf } from "../../fixtures/image-files.ts";
import { contextOf, pictureOf } from "../../fixtures/pictures.ts";
import { presentOf } from "../../fixtures/readings.ts";

const plain = () => sharp({ create: { width: 40, height: 30, channels: 3, background: "#888" } });
const whole = { widthPx: 40, heightPx: 30 };

test("what a JPEG says of its making is read from its bytes", async () => {
  const exif = {
    IFD0: { Make: "maker", Model: "device", Software: "firmware 1", DateTime: "2021:05:08 09:00:00" },
    IFD2: {
      DateTimeOriginal: "2021:05:06 12:13:14",
      ExposureTime: "1/100",
      PixelXDimension: "4000",
      PixelYDimension: "3000",
      Sharpness: "2",
    },
  };
  const file = fileOf(await plain().withExif(exif).jpeg().toBuffer());
  const claims = await readFileClaims(file, "jpeg", whole);
  expect(claims).toMatchObject({
    fileWidthPx: 40,
    takenAt: "2021:05:06 12:13:14",
    changedAt: "2021:05:08 09:00:00",
    software: "firmware 1",
    namesDevice: true,
    namesExposure: true,
    isHardSharpened: true,
    listsEdits: false,
  });
});

test.each([
  ["none", 1],
  ["lzw", 5],
  ["deflate", 8],
  ["jpeg", 7],
] as const)("a TIFF says its compression: %s is %d", async (compression, tag) => {
  const file = fileOf(await plain().tiff({ compression }).toBuffer());
  expect((await readFileClaims(file, "tiff", whole)).tiffCompression).toBe(tag);
});

test("a PNG without a word claims nothing", async () => {
  const claims = await readFileClaims(fileOf(await plain().png().toBuffer()), "png", whole);
  expect(claims).toMatchObject({ namesDevice: false, takenAt: null, software: null, tiffCompression: null });
  const signs = processingSigns(pictureOf(Uint8Array.of(1, 2, 3), 1, 1), null, contextOf({ fileKind: "png", fileClaims: claims }));
  expect(presentOf(signs, "processingSignCount").value).toBe(0);
});
