import { open } from "node:fs/promises";
import type { OriginalKind, Region } from "#domain/capture/capture.ts";
import type { Picture } from "#domain/measure/picture.ts";
import { SRGB_LINEAR_8, SRGB_TO_XYZ_D50, srgbLinear16 } from "#domain/measure/srgb.ts";
import { decodeAside } from "./decode-aside.ts";
import { memoryTiff } from "./memory-tiff.ts";
import { READING, sharp } from "./policy.ts";
import { type ColourReading, readProfile } from "./profile.ts";
import { damaged, UnreadableImage } from "./unreadable-image.ts";

export type Decoded = {
  readonly picture: Picture;
  /** the file up to its image data, for the quantisation tables; null unless JPEG */
  readonly jpegHeader: Uint8Array | null;
};

/**
 * Decodes an original once, upright, into a picture that keeps the file's own codes where it can.
 * Colours that only tables describe (CMYK, L*a*b*, table profiles) are converted to sRGB first.
 * @param region part of the upright picture; null for the whole
 * @throws Error when the bytes cannot be decoded whole
 */
export async function decodePicture(file: string, kind: OriginalKind, region: Region | null = null): Promise<Decoded> {
  const picture = await decode(file, kind, region);
  return { picture, jpegHeader: kind === "jpeg" ? await readJpegHeader(file) : null };
}

async function decode(file: string, kind: OriginalKind, region: Region | null): Promise<Picture> {
  try {
    return await decodeWithSharp(await readable(file, kind), region);
  } catch (error) {
    throw error instanceof UnreadableImage ? error : damaged(error);
  }
}

/** The file itself, or, for kinds the image library does not decode, its pixels and profile as a file in memory. */
async function readable(file: string, kind: OriginalKind): Promise<string | Buffer> {
  if (kind === "raw") return memoryTiff(await decodeAside(file, "raw"), null);
  if (kind === "heic") {
    const { icc } = await sharp(file, READING).metadata();
    return memoryTiff(await decodeAside(file, "heic"), icc ?? null);
  }
  if (kind === "tiff" && (await isUncommonTiff(file))) return memoryTiff(await decodeAside(file, "uncommon-tiff"), null);
  return file;
}

/** Grey of 9 to 15 bits and CIELAB, which the image library refuses or misreads. */
async function isUncommonTiff(file: string): Promise<boolean> {
  const metadata = await sharp(file, READING)
    .metadata()
    .catch(() => null);
  return metadata === null || metadata.space === "lab" || ["10", "12", "14"].includes(String(metadata.bitsPerSample));
}

async function decodeWithSharp(input: string | Buffer, region: Region | null): Promise<Picture> {
  const metadata = await sharp(input, READING).metadata();
  const is16 = metadata.depth === "ushort";
  const isPlain = ["srgb", "rgb", "rgb16", "b-w", "grey16"].includes(metadata.space ?? "") && (is16 || metadata.depth === "uchar");
  const profile = isPlain && metadata.icc ? await readProfile(metadata.icc, is16 ? 65536 : 256) : null;
  const keepsCodes = isPlain && (!metadata.icc || profile !== null);
  const image = sharp(input, { ...READING, ignoreIcc: keepsCodes }).autoOrient();
  const flat = metadata.hasAlpha ? image.flatten({ background: "#ffffff" }) : image;
  const cut = region ? flat.extract(region) : flat;
  const { data, info } = await cut
    .toColourspace(is16 ? "rgb16" : "srgb")
    .raw({ depth: is16 ? "ushort" : "uchar" })
    .toBuffer({ resolveWithObject: true });
  const codes = is16
    ? new Uint16Array(data.buffer, data.byteOffset, data.byteLength / 2)
    : new Uint8Array(data.buffer, data.byteOffset, data.byteLength);
  return pictureOf(threeChannels(codes, info.channels), info.width, info.height, profile ?? srgb(is16));
}

function threeChannels<T extends Uint8Array | Uint16Array>(codes: T, channels: number): T {
  if (channels === 3) return codes;
  if (channels !== 1) throw new Error(`expected one or three channels, got ${channels}`);
  const three = new (codes.constructor as new (length: number) => T)(codes.length * 3);
  for (let at = 0; at < codes.length; at++) three.fill(codes[at] as number, at * 3, at * 3 + 3);
  return three;
}

const pictureOf = (codes: Uint8Array | Uint16Array, widthPx: number, heightPx: number, colour: ColourReading): Picture => ({
  widthPx,
  heightPx,
  codes,
  maxCode: codes instanceof Uint16Array ? 65535 : 255,
  ...colour,
});

function srgb(is16: boolean): ColourReading {
  const linear = is16 ? srgbLinear16() : SRGB_LINEAR_8;
  return { linearOf: [linear, linear, linear], toXyzD50: SRGB_TO_XYZ_D50 };
}

/** Tables stand before the image data, after segments that may hold a profile and a preview. */
const MOST_HEADER_BYTES = 1_000_000;

async function readJpegHeader(file: string): Promise<Uint8Array> {
  const handle = await open(file, "r");
  try {
    const buffer = new Uint8Array(MOST_HEADER_BYTES);
    const { bytesRead } = await handle.read(buffer, 0, buffer.length, 0);
    return buffer.slice(0, bytesRead);
  } finally {
    await handle.close();
  }
}
