import type { Region } from "#domain/capture/capture.ts";
import { FAITHFUL, sampleScreen } from "#domain/comparison/sample-screen.ts";
import { partOfFrame } from "#domain/comparison/seen-in-frame.ts";
import { type SheetInFrame, straightenedSheet } from "#domain/comparison/straightened-sheet.ts";
import { sharp } from "./policy.ts";
import type { Readable } from "./readable.ts";
import { screenPicture } from "./screen-picture.ts";

/** What the kernel reaches beyond the sheet's edge. */
const ROOM_PX = 8;

/**
 * Straightens a sheet from the original's own pixels, no coarser than they are: sRGB of 8 bits, nothing thrown away by compression, its
 * resolution written into the file where it is known.
 * @param within the part of the upright original that is the sheet's frame
 * @returns PNG
 * @throws UnreadableImage when the original cannot be decoded
 */
export async function straightenWhole(input: Readable, within: Region, inFrame: SheetInFrame): Promise<Buffer> {
  const { widthPx, heightPx, ppi, sheet, pxPerUnit, placeOf } = straightenedSheet(inFrame);
  const edges = { left: 0, top: 0, right: sheet.widthMm, bottom: sheet.heightMm };
  const part = partOfFrame(placeOf, edges, within, ROOM_PX);
  const read = { ...part, left: within.left + part.left, top: within.top + part.top };
  const source = await screenPicture(input, read, { widthPx: part.width, heightPx: part.height });
  const straight = sampleScreen(
    source,
    (x, y, into) => {
      placeOf((x + 0.5) / pxPerUnit, (y + 0.5) / pxPerUnit, into);
      into.x -= part.left;
      into.y -= part.top;
    },
    widthPx,
    heightPx,
    FAITHFUL,
  );
  const made = sharp(straight.codes, { raw: { width: widthPx, height: heightPx, channels: 3 } }).withIccProfile("srgb");
  return (ppi === null ? made : made.withMetadata({ density: ppi })).png({ compressionLevel: 4 }).toBuffer();
}
