import exifr from "exifr";
import type { OriginalKind } from "#domain/capture/capture.ts";
import { settingsOf } from "#domain/capture/settings.ts";

const OPTIONS = { tiff: true, exif: true, gps: false, icc: false, xmp: false, iptc: false, translateValues: false, reviveValues: false };

/**
 * What EXIF says of how a file was made. A block that cannot be read never keeps a file out.
 * @param block the file's EXIF block where the image library gave one; TIFF and raw files are read themselves
 */
export async function readSettings(file: string, kind: OriginalKind, block: Buffer | undefined) {
  const source = block ? withoutLabel(block) : kind === "tiff" || kind === "raw" ? file : null;
  if (source === null) return { ...settingsOf({}), metadataState: "none" as const, metadataNote: null };
  const tags = await exifr.parse(source, OPTIONS).catch(() => null);
  if (tags === null || (block && tags === undefined))
    return { ...settingsOf({}), metadataState: "unreadable" as const, metadataNote: NOTE };
  return { ...settingsOf(tags ?? {}), metadataState: tags ? ("read" as const) : ("none" as const), metadataNote: null };
}

const NOTE = "What the file says of its own making (EXIF) could not be read. The picture is whole; enter method and set-up by hand.";

const LABEL = "Exif\0\0";
const withoutLabel = (block: Buffer) => (block.toString("latin1", 0, LABEL.length) === LABEL ? block.subarray(LABEL.length) : block);
