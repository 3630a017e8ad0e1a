import { randomUUID } from "node:crypto";
import { rename, rm, writeFile } from "node:fs/promises";
import type { Sharp } from "sharp";
import type { OriginalKind, Region } from "#domain/capture/capture.ts";
import { type CollectionFolder, derivedOriginalPath, derivedPath } from "../collection-folder.ts";
import { READING, sharp } from "./policy.ts";
import { type Readable, readable } from "./readable.ts";
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
  await deriveFromReadable(folder, capture, await readable(original.path, original.kind));
}

/** The same for a file that was made readable before. It is decoded once: the thumbnail is made from the view. */
export async function deriveFromReadable(
  folder: CollectionFolder,
  capture: { readonly id: number; readonly region: Region | null },
  input: Readable,
): Promise<void> {
  await writeSmallPictures(input, capture.region, (name) => derivedPath(folder, capture.id, name));
}

/** The same for an original that is no capture, e.g. a photograph of a finding. */
export async function deriveFromOriginal(
  folder: CollectionFolder,
  original: { readonly id: number; readonly path: string; readonly kind: OriginalKind },
) {
  await writeSmallPictures(await readable(original.path, original.kind), null, (name) => derivedOriginalPath(folder, original.id, name));
}

async function writeSmallPictures(input: Readable, region: Region | null, pathOf: (name: DerivedName) => string): Promise<void> {
  const { data, info } = await viewPixels(input, region);
  const view = () => sharp(data, { raw: info });
  await replaceFile(pathOf("view.jpg"), await asJpeg(view()));
  await replaceFile(pathOf("thumbnail.jpg"), await asJpeg(view().resize(within(SIZES["thumbnail.jpg"]))));
}

async function viewPixels(input: Readable, region: Region | null) {
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
