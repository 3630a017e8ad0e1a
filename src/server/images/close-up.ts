import type { OriginalKind, Region } from "#domain/capture/capture.ts";
import { READING, sharp } from "./policy.ts";
import { readable } from "./readable.ts";
import { damaged } from "./unreadable-image.ts";

/** Side of a close-up, px of the capture and of the screen alike. */
export const CLOSE_UP_PX = 400;

/**
 * A square of the original at full resolution round a place of the capture, in sRGB; grey where it reaches beyond.
 * @param frame the capture's part of the original, upright
 * @throws UnreadableImage when the original cannot be decoded
 */
export async function closeUp(
  original: { path: string; kind: OriginalKind },
  frame: Region,
  at: { x: number; y: number },
): Promise<Buffer> {
  const half = CLOSE_UP_PX / 2;
  const left = clamp(Math.round(at.x) - half, frame.width - 1);
  const top = clamp(Math.round(at.y) - half, frame.height - 1);
  const right = clamp(Math.round(at.x) + half - 1, frame.width - 1);
  const bottom = clamp(Math.round(at.y) + half - 1, frame.height - 1);
  const input = await readable(original.path, original.kind);
  try {
    const cut = await sharp(input, READING)
      .autoOrient()
      .extract({ left: frame.left + left, top: frame.top + top, width: right - left + 1, height: bottom - top + 1 })
      .flatten({ background: "#ffffff" })
      .toColourspace("srgb")
      .png()
      .toBuffer();
    return await sharp({ create: { width: CLOSE_UP_PX, height: CLOSE_UP_PX, channels: 3, background: "#959595" } })
      .composite([{ input: cut, left: left - (Math.round(at.x) - half), top: top - (Math.round(at.y) - half) }])
      .jpeg({ quality: 88 })
      .toBuffer();
  } catch (error) {
    throw damaged(error);
  }
}

const clamp = (value: number, most: number) => Math.min(most, Math.max(0, value));
