import { open } from "node:fs/promises";
import type { Region } from "#domain/capture/capture.ts";
import { SRGB_LINEAR_8, SRGB_TO_XYZ_D50, srgbLinear16 } from "#domain/measure/colour/srgb.ts";
import type { Picture } from "#domain/measure/picture.ts";
import { letGoOfDecoded, noteDecoded } from "./let-go.ts";
import { READING, sharp } from "./policy.ts";
import { type ColourReading, readProfile } from "./profile.ts";
import type { Readable } from "./readable.ts";
import { damaged } from "./unreadable-image.ts";

/**
 * Decodes an original once, upright, into a picture that keeps the file's own codes where it can.
 * Colours that only tables describe (CMYK, L*a*b*, table profiles) are converted to sRGB first.
 * @param input the file, made readable before (readable.ts)
 * @param region part of the upright picture; null for the whole
 * @throws UnreadableImage when the bytes cannot be decoded whole
 */
export async function decodeReadable(input: Readable, region: Region | null = null): Promise<Picture> {
  try {
    return await decode(input, region);
  } catch (error) {
    throw damaged(error);
  }
}

/**
 * Reads a file to its end and keeps nothing of it but the size it has upright: line after line, since the pixels of a whole
 * sheet would take up to 1.8 GB.
 * @throws UnreadableImage when the bytes cannot be decoded whole
 */
export async function readToItsEnd(input: Readable): Promise<Pick<Picture, "widthPx" | "heightPx">> {
  try {
    const { autoOrient } = await sharp(input, READING).metadata();
    await sharp(input, READING).resize(16, 16, { fit: "fill", fastShrinkOnLoad: false }).raw().toBuffer();
    return { widthPx: autoOrient.width, heightPx: autoOrient.height };
  } catch (error) {
    throw damaged(error);
  }
}

async function decode(input: Readable, region: Region | null): Promise<Picture> {
  const metadata = await sharp(input, READING).metadata();
  const is16 = metadata.depth === "ushort";
  const isPlain = ["srgb", "rgb", "rgb16", "b-w", "grey16"].includes(metadata.space ?? "") && (is16 || metadata.depth === "uchar");
  const profile = isPlain && metadata.icc ? await readProfile(metadata.icc, is16 ? 65536 : 256) : null;
  const keepsCodes = isPlain && (!metadata.icc || profile !== null);
  const image = sharp(input, { ...READING, ignoreIcc: keepsCodes }).autoOrient();
  const cut = region ? image.extract(region) : image;
  letGoOfDecoded();
  const { data, info } = await cut
    .toColourspace(is16 ? "rgb16" : "srgb")
    .raw({ depth: is16 ? "ushort" : "uchar" })
    .toBuffer({ resolveWithObject: true });
  noteDecoded(data.byteLength);
  const codes = is16
    ? new Uint16Array(data.buffer, data.byteOffset, data.byteLength / 2)
    : new Uint8Array(data.buffer, data.byteOffset, data.byteLength);
  return pictureOf(threeChannels(codes, info.channels), info.width, info.height, profile ?? srgb(is16));
}

/** Grey three times over; what is transparent, on white. */
function threeChannels<T extends Uint8Array | Uint16Array>(codes: T, channels: number): T {
  if (channels === 3) return codes;
  const maxCode = codes instanceof Uint16Array ? 65535 : 255;
  const isGrey = channels < 3;
  const hasAlpha = channels === 2 || channels === 4;
  const three = new (codes.constructor as new (length: number) => T)((codes.length / channels) * 3);
  for (let from = 0, to = 0; from < codes.length; from += channels, to += 3) {
    const opacity = hasAlpha ? (codes[from + channels - 1] as number) / maxCode : 1;
    for (let channel = 0; channel < 3; channel++) {
      const code = codes[isGrey ? from : from + channel] as number;
      three[to + channel] = hasAlpha ? Math.round(opacity * code + (1 - opacity) * maxCode) : code;
    }
  }
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

export async function readJpegHeader(file: string): Promise<Uint8Array> {
  const handle = await open(file, "r");
  try {
    const buffer = new Uint8Array(MOST_HEADER_BYTES);
    const { bytesRead } = await handle.read(buffer, 0, buffer.length, 0);
    return buffer.slice(0, bytesRead);
  } finally {
    await handle.close();
  }
}
