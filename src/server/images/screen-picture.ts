import type { Region } from "#domain/capture/capture.ts";
import type { ScreenPicture } from "#domain/comparison/sample-screen.ts";
import { READING, sharp } from "./policy.ts";
import type { Readable } from "./readable.ts";
import { damaged } from "./unreadable-image.ts";

/**
 * A part of an original as the screen shows it: upright, in sRGB, 8 bits, on white where it is transparent.
 * @param part in px of the upright original
 * @param made the size it is brought to while it is read; never larger than the part
 * @throws UnreadableImage when the original cannot be decoded
 */
export async function screenPicture(input: Readable, part: Region, made: { widthPx: number; heightPx: number }): Promise<ScreenPicture> {
  const isReduced = made.widthPx < part.width || made.heightPx < part.height;
  try {
    const cut = sharp(input, READING).autoOrient().extract(part);
    const { data, info } = await (isReduced ? cut.resize(made.widthPx, made.heightPx, { fit: "fill" }) : cut)
      .flatten({ background: "#ffffff" })
      .toColourspace("srgb")
      .raw({ depth: "uchar" })
      .toBuffer({ resolveWithObject: true });
    const codes = new Uint8Array(data.buffer, data.byteOffset, data.byteLength);
    return { widthPx: info.width, heightPx: info.height, codes: info.channels === 1 ? greyAsThree(codes) : codes };
  } catch (error) {
    throw damaged(error);
  }
}

function greyAsThree(grey: Uint8Array): Uint8Array {
  const three = new Uint8Array(3 * grey.length);
  for (let at = 0; at < grey.length; at++) three.fill(grey[at] as number, 3 * at, 3 * at + 3);
  return three;
}
