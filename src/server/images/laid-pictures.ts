import type { LaidPictures } from "#domain/condition/change/change-between.ts";
import type { ColourSheet } from "#domain/condition/change/colour-sheet.ts";
import { linearToSrgb } from "#domain/measure/colour/srgb.ts";
import { type CollectionFolder, changePath } from "../collection-folder.ts";
import { asJpeg, replaceFile } from "./derive.ts";
import { sharp } from "./policy.ts";

/** Writes both captures as they lie on each other, in sRGB, for the screen. */
export async function writeLaidPictures(
  folder: CollectionFolder,
  pair: { readonly olderId: number; readonly newerId: number },
  { older, newer }: LaidPictures,
): Promise<void> {
  await replaceFile(changePath(folder, pair, "older.jpg"), await jpegOf(older));
  await replaceFile(changePath(folder, pair, "newer.jpg"), await jpegOf(newer));
}

function jpegOf({ width, height, channels }: ColourSheet): Promise<Buffer> {
  const codes = new Uint8Array(width * height * 3);
  for (let at = 0; at < width * height; at++) {
    for (let channel = 0; channel < 3; channel++) {
      const light = (channels[channel] as Float32Array)[at] as number;
      // nothing is known of a place at the upper end of its channel but that it is light
      codes[3 * at + channel] = Number.isNaN(light) ? 255 : Math.round(255 * linearToSrgb(Math.min(1, Math.max(0, light))));
    }
  }
  return asJpeg(sharp(codes, { raw: { width, height, channels: 3 } }));
}
