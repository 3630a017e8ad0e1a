import sharp, { type Sharp } from "sharp";
import { describe, expect, test } from "vitest";
import { processingSigns } from "#domain/measure/file/processing-signs.ts";
import { readFileClaims } from "#server/intake/read-file-claims.ts";
import { captureSheet } from "../../fixtures/captured-sheet.ts";
import { decoded } from "../../fixtures/decoded.ts";
import { withThumbnail } from "../../fixtures/exif-thumbnail.ts";
import { fileOf } from "../../fixtures/image-files.ts";
import { contextOf } from "../../fixtures/pictures.ts";
import { presentOf } from "../../fixtures/readings.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const SEEDS = [9101, 9102, 9103];

const LARGE = new Map(
  SEEDS.map((seed) => {
    const { picture } = captureSheet({
      ppi: 150,
      seed,
      print: { widthMm: 44, heightMm: 52, border: { left: 5, right: 5, top: 5, bottom: 9 }, content: CONTENTS[seed % 3] ?? "scene" },
    });
    return [seed, picture];
  }),
);

function large(seed: number): { image: Sharp; widthPx: number; heightPx: number } {
  const { codes, widthPx, heightPx } = LARGE.get(seed) as NonNullable<ReturnType<typeof LARGE.get>>;
  return { image: sharp(codes, { raw: { width: widthPx, height: heightPx, channels: 3 } }), widthPx, heightPx };
}

const small = (image: Sharp, height = 160) => image.resize({ height }).jpeg({ quality: 70 }).toBuffer();

async function signs(picture: Sharp, thumbnail: Buffer, orientation = 1): Promise<string[]> {
  const file = fileOf(withThumbnail(await picture.jpeg({ quality: 92 }).toBuffer(), thumbnail, orientation));
  const capture = await decoded(file, "jpeg");
  const fileClaims = await readFileClaims(file, "jpeg", capture);
  expect(fileClaims.thumbnail).not.toBeNull();
  const { detail } = presentOf(processingSigns(capture, null, contextOf({ fileKind: "jpeg", fileClaims })), "processingSignCount");
  return ((detail?.signs ?? []) as { sign: string }[]).map(({ sign }) => sign).filter((sign) => sign.includes("thumbnail"));
}

describe.each(SEEDS)("the thumbnail of a file as the device wrote it (seed %d) is no sign", (seed) => {
  test("upright", async () => {
    expect(await signs(large(seed).image, await small(large(seed).image))).toEqual([]);
  });

  test.each([3, 6, 8])("with the device held otherwise (orientation %d)", async (orientation) => {
    expect(await signs(large(seed).image, await small(large(seed).image), orientation)).toEqual([]);
  });

  test("between dark bars", async () => {
    const { image } = large(seed);
    const barred = image.resize({ width: 160, height: 120, fit: "contain", background: "#000" }).jpeg({ quality: 70 });
    expect(await signs(large(seed).image, await barred.toBuffer())).toEqual([]);
  });

  test("with the long sides of the picture left out by the device", async () => {
    const { image, widthPx } = large(seed);
    const cut = image.resize({ width: widthPx, height: Math.round(widthPx), fit: "cover" });
    expect(await signs(large(seed).image, await small(sharp(await cut.png().toBuffer()), 120))).toEqual([]);
  });
});

describe.each(SEEDS)("the thumbnail of a file that a program changed (seed %d) tells", (seed) => {
  test.each([90, 180, 270])("that it was turned by %d°", async (turn) => {
    const { image } = large(seed);
    expect(await signs(large(seed).image.rotate(turn), await small(image))).toEqual([expect.stringContaining("turned it")]);
  });

  test.each([0.85, 0.7])("that %d of both sides was left by a crop", async (share) => {
    const { image, widthPx, heightPx } = large(seed);
    const crop = {
      left: Math.round(0.6 * (1 - share) * widthPx),
      top: Math.round(0.3 * (1 - share) * heightPx),
      width: Math.round(share * widthPx),
      height: Math.round(share * heightPx),
    };
    const found = await signs(large(seed).image.extract(crop), await small(image));
    expect(found).toEqual([expect.stringContaining("it was cropped")]);
    const percent = Number(/about (\d+) %/.exec(found[0] as string)?.[1]);
    expect(Math.abs(percent - 100 * share ** 2)).toBeLessThan(8);
  });

  test("that it was made lighter", async () => {
    const { image } = large(seed);
    const lifted = large(seed).image.gamma(1, 1.35);
    expect(await signs(lifted, await small(image))).toEqual([expect.stringContaining("Its thumbnail is darker")]);
  });

  test("that it is another picture", async () => {
    const other = sharp({ create: { width: 160, height: 160, channels: 3, background: "#111" } }).composite([
      { input: { create: { width: 60, height: 160, channels: 3, background: "#eee" } }, left: 100, top: 0 },
    ]);
    expect(await signs(large(seed).image, await small(sharp(await other.png().toBuffer())))).toEqual([
      expect.stringContaining("another picture"),
    ]);
  });
});

test("a thumbnail that is no picture, or a plain one, says nothing", async () => {
  const { image } = large(9101);
  const broken = fileOf(withThumbnail(await image.jpeg().toBuffer(), Buffer.from("not a picture")));
  expect((await readFileClaims(broken, "jpeg", { widthPx: 1, heightPx: 1 })).thumbnail).toBeNull();
  const plain = await sharp({ create: { width: 160, height: 120, channels: 3, background: "#888" } })
    .jpeg()
    .toBuffer();
  expect(await signs(large(9101).image, plain)).toEqual([]);
});
