import { rename, rm } from "node:fs/promises";
import type { OriginalKind, Region } from "#domain/capture/capture.ts";
import { type CollectionFolder, derivedPath } from "../collection-folder.ts";
import { decodePicture } from "./decode.ts";
import { READING, sharp } from "./policy.ts";

const SIZES = { "thumbnail.jpg": 400, "view.jpg": 1600 } as const;
export type DerivedName = keyof typeof SIZES;
export const DERIVED_NAMES = Object.keys(SIZES) as DerivedName[];

/**
 * Makes the small pictures of a capture for the screen: upright, cut to its region, in sRGB.
 * Written under another name and renamed, so that a half-made one is never seen.
 * @throws Error when the original cannot be decoded
 */
export async function derivePictures(
  folder: CollectionFolder,
  capture: { readonly id: number; readonly region: Region | null },
  original: { readonly path: string; readonly kind: OriginalKind },
): Promise<void> {
  for (const name of DERIVED_NAMES) {
    const target = derivedPath(folder, capture.id, name);
    const halfMade = `${target}.${crypto.randomUUID()}`;
    const image = await upright(original, capture.region);
    try {
      await image
        .resize(SIZES[name], SIZES[name], { fit: "inside", withoutEnlargement: true })
        .flatten({ background: "#ffffff" })
        .toColourspace("srgb")
        .withIccProfile("srgb")
        .jpeg({ quality: 86 })
        .toFile(halfMade);
      await rename(halfMade, target);
    } finally {
      await rm(halfMade, { force: true });
    }
  }
}

/** Kinds the image library cannot decode come through their pixels; the screen needs no more than 8 bits of them. */
async function upright(original: { readonly path: string; readonly kind: OriginalKind }, region: Region | null) {
  if (original.kind === "raw" || original.kind === "heic") {
    const { codes, maxCode, widthPx, heightPx } = (await decodePicture(original.path, original.kind, region)).picture;
    const pixels = maxCode === 255 ? codes : Uint8Array.from(codes, (code) => code >> 8);
    return sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } });
  }
  const image = sharp(original.path, READING).autoOrient();
  return region ? image.extract(region) : image;
}
