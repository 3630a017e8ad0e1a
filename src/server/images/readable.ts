import { access, open } from "node:fs/promises";
import type { OriginalKind } from "#domain/capture/capture.ts";
import { decodeAside } from "./decode-aside.ts";
import { memoryTiff } from "./memory-tiff.ts";
import { DECODER_OF, MOST_PIXELS, READING, sharp } from "./policy.ts";
import { readTiffDirectories } from "./tiff-directory.ts";
import { damaged, missing, tooManyPixels, UnreadableImage } from "./unreadable-image.ts";

/** What the image library reads: the file itself, or its pixels and profile as a file in memory. */
export type Readable = string | Buffer;

/**
 * Makes a file of any kind readable by the image library, with its own colours. Kinds that it does
 * not decode are decoded here, so ask once a job.
 * @throws UnreadableImage
 */
export async function readable(file: string, kind: OriginalKind): Promise<Readable> {
  await access(file).catch(() => {
    throw missing();
  });
  try {
    if (kind === "tiff" && (await isUncommonTiff(file))) return memoryTiff(await decodeAside(file, "uncommon-tiff"), null);
    if (kind === "raw") return memoryTiff(await decodeAside(file, "raw"), null);
    // the limit is held against the header's figures here, so that a picture too large is not taken for a damaged one
    const { width, height, icc } = await sharp(file, { ...READING, limitInputPixels: false }).metadata();
    if (width * height > MOST_PIXELS) throw tooManyPixels(width, height, MOST_PIXELS);
    if (DECODER_OF[kind] === "sharp") return file;
    return memoryTiff(await decodeAside(file, "heic"), icc ?? null);
  } catch (error) {
    throw error instanceof UnreadableImage ? error : damaged(error);
  }
}

const BITS_PER_SAMPLE = 258;
const PHOTOMETRIC = 262;
const CIELAB = 8;

/** Grey of 9 to 15 bits, and CIELAB of 8 bits: sound TIFFs that the image library refuses. */
async function isUncommonTiff(path: string): Promise<boolean> {
  const file = await open(path, "r");
  try {
    const [directory] = await readTiffDirectories(file);
    const bits = directory?.get(BITS_PER_SAMPLE) ?? [];
    const isLab = directory?.get(PHOTOMETRIC)?.[0] === CIELAB && bits.length === 3 && bits[0] === 8;
    const isOddGrey = bits.length === 1 && (bits[0] as number) > 8 && (bits[0] as number) < 16;
    return isLab || isOddGrey;
  } finally {
    await file.close();
  }
}
