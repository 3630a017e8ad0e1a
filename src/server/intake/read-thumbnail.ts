import exifr from "exifr";
import type { Thumbnail } from "#domain/capture/file-claims.ts";
import { READING, sharp } from "../images/policy.ts";
import { withoutLabel } from "./read-settings.ts";

const MOST_PIXELS_OF_THUMBNAIL = 1_000_000;
/** Degrees clockwise that make a picture upright, by EXIF's orientation; devices write none of the mirrored ones. */
const TURN_OF: Readonly<Record<number, number>> = { 1: 0, 3: 180, 6: 90, 8: 270 };

/** The small picture in an EXIF block, turned as the large one is; null where there is none or it cannot be read. */
export async function readThumbnail(block: Buffer, orientation: number): Promise<Thumbnail | null> {
  const turn = TURN_OF[orientation];
  if (turn === undefined) return null;
  try {
    const bytes = await exifr.thumbnail(withoutLabel(block));
    if (!bytes) return null;
    const { data, info } = await sharp(Buffer.from(bytes), { ...READING, limitInputPixels: MOST_PIXELS_OF_THUMBNAIL })
      .rotate(turn)
      .toColourspace("srgb")
      .removeAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    return info.channels === 3 ? { widthPx: info.width, heightPx: info.height, rgb: new Uint8Array(data) } : null;
  } catch {
    return null;
  }
}
