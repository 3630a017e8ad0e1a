import { randomUUID } from "node:crypto";
import { rename, rm, writeFile } from "node:fs/promises";
import type { Channels, Sharp } from "sharp";
import type { OriginalKind, Region } from "#domain/capture/capture.ts";
import type { Picture } from "#domain/measure/picture.ts";
import { type CollectionFolder, derivedOriginalPath, derivedPath } from "../collection-folder.ts";
import { READING, sharp } from "./policy.ts";
import { type Readable, readable } from "./readable.ts";
import { srgbOf } from "./srgb-of.ts";
import { damaged } from "./unreadable-image.ts";

const SIZES = { "thumbnail.jpg": 400, "view.jpg": 1600 } as const;
export type DerivedName = keyof typeof SIZES;

/**
 * Makes the small pictures of a capture for the screen: upright, cut to its region, in sRGB.
 * @throws UnreadableImage when the original cannot be decoded
 */
export async function derivePictures(
  folder: CollectionFolder,
  capture: { readonly id: number; readonly region: Region | null },
  original: { readonly path: string; readonly kind: OriginalKind },
): Promise<void> {
  const input = await readable(original.path, original.kind);
  await write(await viewPixels(input, capture.region), (name) => derivedPath(folder, capture.id, name));
}

/** The same of a capture that is decoded already. */
export async function deriveFromPicture(folder: CollectionFolder, captureId: number, picture: Picture): Promise<void> {
  await write(await reducedToView(picture), (name) => derivedPath(folder, captureId, name));
}

/** The same for an original that is no capture, e.g. a photograph of a finding. */
export async function deriveFromOriginal(
  folder: CollectionFolder,
  original: { readonly id: number; readonly path: string; readonly kind: OriginalKind },
): Promise<void> {
  const input = await readable(original.path, original.kind);
  await write(await viewPixels(input, null), (name) => derivedOriginalPath(folder, original.id, name));
}

type Pixels = {
  readonly data: Uint8Array;
  readonly info: { readonly width: number; readonly height: number; readonly channels: Channels };
};

/** The thumbnail is made from the view. */
async function write({ data, info }: Pixels, pathOf: (name: DerivedName) => string): Promise<void> {
  const view = () => sharp(data, { raw: info });
  await replaceFile(pathOf("view.jpg"), await asJpeg(view()));
  await replaceFile(pathOf("thumbnail.jpg"), await asJpeg(view().resize(within(SIZES["thumbnail.jpg"]))));
}

async function viewPixels(input: Readable, region: Region | null): Promise<Pixels> {
  const image = sharp(input, READING).autoOrient();
  try {
    return await (region ? image.extract(region) : image)
      .resize(within(SIZES["view.jpg"]))
      .flatten({ background: "#ffffff" })
      .toColourspace("srgb")
      .raw({ depth: "uchar" })
      .toBuffer({ resolveWithObject: true });
  } catch (error) {
    throw damaged(error);
  }
}

/** First made smaller, then brought to sRGB by the picture's own way to light, since that is the quicker order. */
async function reducedToView(picture: Picture): Promise<Pixels> {
  const { widthPx: width, heightPx: height, maxCode } = picture;
  const isDeep = maxCode > 255;
  const { data, info } = await sharp(picture.codes, { raw: { width, height, channels: 3 } })
    .resize(within(SIZES["view.jpg"]))
    .toColourspace(isDeep ? "rgb16" : "srgb")
    .raw({ depth: isDeep ? "ushort" : "uchar" })
    .toBuffer({ resolveWithObject: true });
  const codes = isDeep ? new Uint16Array(data.buffer, data.byteOffset, data.byteLength / 2) : data;
  return { data: srgbOf(codes, picture), info: { width: info.width, height: info.height, channels: 3 } };
}

const within = (longSidePx: number) => ({ width: longSidePx, height: longSidePx, fit: "inside", withoutEnlargement: true }) as const;

export const asJpeg = (image: Sharp): Promise<Buffer> => image.withIccProfile("srgb").jpeg({ quality: 86 }).toBuffer();

/** Written under another name and renamed, so that a half-made one is never seen. */
export async function replaceFile(target: string, bytes: Buffer | string): Promise<void> {
  const halfMade = `${target}.${randomUUID()}`;
  try {
    await writeFile(halfMade, bytes);
    await rename(halfMade, target);
  } finally {
    await rm(halfMade, { force: true });
  }
}
