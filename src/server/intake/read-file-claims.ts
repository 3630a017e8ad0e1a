import { open } from "node:fs/promises";
import type { OriginalKind } from "#domain/capture/capture.ts";
import { type FileClaims, fileClaimsOf } from "#domain/capture/file-claims.ts";
import { READING, sharp } from "../images/policy.ts";
import { readTiffDirectories } from "../images/tiff-directory.ts";
import { readTags } from "./read-settings.ts";
import { readThumbnail } from "./read-thumbnail.ts";

const COMPRESSION = 259;

/**
 * What a file says of its own making, for the measures that ask whether it still is what the device wrote.
 * @param whole size of the whole file, upright
 */
export async function readFileClaims(
  file: string,
  kind: OriginalKind,
  whole: { readonly widthPx: number; readonly heightPx: number },
): Promise<FileClaims> {
  const blocks = await sharp(file, READING)
    .metadata()
    .catch((): { exif?: Buffer; xmp?: Buffer; orientation?: number } => ({}));
  const { exif, xmp } = await readTags(file, kind, blocks);
  return fileClaimsOf(exif ?? {}, xmp ?? {}, {
    fileWidthPx: whole.widthPx,
    fileHeightPx: whole.heightPx,
    tiffCompression: kind === "tiff" ? await compressionOf(file) : null,
    thumbnail: blocks.exif ? await readThumbnail(blocks.exif, blocks.orientation ?? 1) : null,
  });
}

async function compressionOf(path: string): Promise<number | null> {
  const file = await open(path, "r");
  try {
    return (await readTiffDirectories(file))[0]?.get(COMPRESSION)?.[0] ?? null;
  } finally {
    await file.close();
  }
}
