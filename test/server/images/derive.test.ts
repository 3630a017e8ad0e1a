import { existsSync, readdirSync } from "node:fs";
import sharp from "sharp";
import { expect, test } from "vitest";
import { derivedPath } from "#server/collection-folder.ts";
import { deriveFromPicture, derivePictures } from "#server/images/derive.ts";
import { memoryTiff } from "#server/images/memory-tiff.ts";
import { emptyCollection } from "../../fixtures/collection.ts";
import { decoded } from "../../fixtures/decoded.ts";
import { fileOf, sample } from "../../fixtures/image-files.ts";
import { drawRaw } from "../../fixtures/raw-file.ts";

const colourOf = async (file: string) => [...(await sharp(file).resize(1, 1).raw().toBuffer())];

test("a thumbnail of 400 and a view of 1600 pixels are made, upright, and nothing half-made stays", async () => {
  const { folder } = emptyCollection();
  const wide = await sharp({ create: { width: 3000, height: 1500, channels: 3, background: "#808080" } })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();
  await derivePictures(folder, { id: 7, region: null }, { path: fileOf(wide), kind: "jpeg" });
  const thumbnail = await sharp(derivedPath(folder, 7, "thumbnail.jpg")).metadata();
  const view = await sharp(derivedPath(folder, 7, "view.jpg")).metadata();
  expect([thumbnail.width, thumbnail.height, view.width, view.height]).toEqual([200, 400, 800, 1600]);
  expect(readdirSync(folder.derived).sort()).toEqual(["7-thumbnail.jpg", "7-view.jpg"]);
});

test("a small original is not blown up", async () => {
  const { folder } = emptyCollection();
  await derivePictures(folder, { id: 1, region: null }, { path: sample("good/orient1.jpg"), kind: "jpeg" });
  expect((await sharp(derivedPath(folder, 1, "view.jpg")).metadata()).width).toBe(128);
});

test("the part of a bed shows that part alone", async () => {
  const { folder } = emptyCollection();
  const red = await sharp({ create: { width: 50, height: 40, channels: 3, background: "#ff0000" } })
    .png()
    .toBuffer();
  const bed = await sharp({ create: { width: 100, height: 80, channels: 3, background: "#ffffff" } })
    .composite([{ input: red, left: 50, top: 40 }])
    .png()
    .toBuffer();
  await derivePictures(folder, { id: 1, region: { left: 50, top: 40, width: 50, height: 40 } }, { path: fileOf(bed), kind: "png" });
  const [r, g, b] = await colourOf(derivedPath(folder, 1, "view.jpg"));
  expect([(r as number) > 250, (g as number) < 5, (b as number) < 5]).toEqual([true, true, true]);
});

// Little CMS 2 turns Display P3 (118, 16, 223) into sRGB (129, 0, 232).
test("colours outside sRGB are brought to the screen through their profile", async () => {
  const { folder } = emptyCollection();
  const tagged = await sharp({ create: { width: 1, height: 1, channels: 3, background: "red" } })
    .withIccProfile("p3")
    .png()
    .toBuffer();
  const icc = (await sharp(tagged).metadata()).icc as Buffer;
  const data = Uint8Array.from({ length: 64 * 64 * 3 }, (_, index) => [118, 16, 223][index % 3] as number);
  const path = fileOf(memoryTiff({ widthPx: 64, heightPx: 64, channels: 3, data }, icc));
  await derivePictures(folder, { id: 1, region: null }, { path, kind: "tiff" });
  await deriveFromPicture(folder, 2, await decoded(path, "tiff"));
  for (const id of [1, 2]) {
    const shown = await colourOf(derivedPath(folder, id, "view.jpg"));
    for (const [channel, code] of [129, 0, 232].entries()) expect(Math.abs((shown[channel] as number) - code)).toBeLessThanOrEqual(3);
  }
});

test.each(["16-bit", "8-bit"])("a %s picture that is decoded already looks on the screen as its file does", async (depth) => {
  const { folder } = emptyCollection();
  const [width, height] = [2000, 900];
  const codes = Uint16Array.from(
    { length: width * height * 3 },
    (_, at) => 65535 * ((Math.floor(at / 3) % width) / width) ** ((at % 3) + 1),
  );
  const image = sharp(codes, { raw: { width, height, channels: 3 } });
  const path = fileOf(
    await (depth === "16-bit" ? image.toColourspace("rgb16") : image.toColourspace("srgb")).tiff({ compression: "lzw" }).toBuffer(),
  );
  await derivePictures(folder, { id: 1, region: null }, { path, kind: "tiff" });
  const picture = await decoded(path, "tiff");
  expect(picture.maxCode).toBe(depth === "16-bit" ? 65535 : 255);
  await deriveFromPicture(folder, 2, picture);
  const [ofFile, ofPicture] = await Promise.all(
    [1, 2].map((id) =>
      sharp(derivedPath(folder, id, "view.jpg"))
        .raw()
        .toBuffer(),
    ),
  );
  expect(ofPicture?.length).toBe(1600 * 720 * 3);
  ofFile?.forEach((code, at) => {
    if (Math.abs(code - (ofPicture?.[at] as number)) > 4) throw new Error(`${code} at ${at} became ${ofPicture?.[at]}`);
  });
});

test.each([
  ["good/gray12.tif", "tiff"],
  ["good/cielab.tif", "tiff"],
  ["good/gray16-be.tif", "tiff"],
  ["good/multipage.tif", "tiff"],
  ["good/plain.heic", "heic"],
] as const)("%s gets its small pictures too", async (name, kind) => {
  const { folder } = emptyCollection();
  await derivePictures(folder, { id: 1, region: null }, { path: sample(name), kind });
  expect(existsSync(derivedPath(folder, 1, "thumbnail.jpg"))).toBe(true);
});

// IEC 61966-2-1: linear 0.5 is code 188.
test("a raw file is shown with the curve of the screen", async () => {
  const { folder } = emptyCollection();
  await derivePictures(folder, { id: 1, region: null }, { path: fileOf(drawRaw(40, 40, () => 0.5)), kind: "raw" });
  const shown = await colourOf(derivedPath(folder, 1, "thumbnail.jpg"));
  for (const code of shown) expect(Math.abs(code - 188)).toBeLessThanOrEqual(2);
});
