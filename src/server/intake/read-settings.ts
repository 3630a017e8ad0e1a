import exifr from "exifr";
import type { OriginalKind } from "#domain/capture/capture.ts";
import { settingsOf } from "#domain/capture/settings.ts";

/** Numbers as the file has them and moments as text: nothing translated, no time zone invented, no position. */
const PLAIN = { gps: false, icc: false, iptc: false, translateValues: false, reviveValues: false } as const;
const EXIF = { ...PLAIN, tiff: true, exif: true, xmp: false };
const XMP = { ...PLAIN, tiff: false, exif: false, xmp: true };

/** The kinds whose XMP the reader finds by itself. */
const KINDS_WITH_XMP: readonly OriginalKind[] = ["jpeg", "tiff", "heic", "raw"];

/**
 * What EXIF and XMP say of how a file was made. A block that cannot be read never keeps a file out.
 * @param blocks the file's EXIF and XMP where the image library gave them; TIFF and raw files are read themselves
 */
export async function readSettings(file: string, kind: OriginalKind, blocks: MetadataBlocks) {
  const { exif, xmp, isUnreadable } = await readTags(file, kind, blocks);
  return {
    ...settingsOf(exif ?? {}, xmp ?? {}),
    metadataState: isUnreadable ? ("unreadable" as const) : exif || xmp ? ("read" as const) : ("none" as const),
    metadataNote: isUnreadable ? NOTE : null,
  };
}

/** EXIF and XMP as the image library cuts them out of a file. */
export type MetadataBlocks = { exif?: Buffer; xmp?: Buffer };

/** The tags of EXIF and XMP by name, as the file has them; nothing where it has none or they cannot be read. */
export async function readTags(file: string, kind: OriginalKind, { exif: block, xmp: packet }: MetadataBlocks) {
  const xmpSource = KINDS_WITH_XMP.includes(kind) ? file : packet ? asSegment(packet) : null;
  const xmp = xmpSource === null ? null : await tagsOf(xmpSource, XMP).catch(() => null);
  const source = block ? withoutLabel(block) : kind === "tiff" || kind === "raw" ? file : null;
  const exif = source === null ? undefined : await tagsOf(source, EXIF).catch(() => null);
  return { exif, xmp, isUnreadable: exif === null || (block !== undefined && exif === undefined) };
}

const tagsOf = (source: string | Buffer, options: object): Promise<Record<string, unknown> | undefined> => exifr.parse(source, options);

const NOTE = "What the file says of its own making (EXIF) could not be read. The picture is whole; enter method and set-up by hand.";

const XMP_LABEL = "http://ns.adobe.com/xap/1.0/\0";
const MOST_IN_SEGMENT = 65_533;

/** XMP as the APP1 segment of an empty JPEG, the form in which the reader takes it alone; null when it is too long for one. */
function asSegment(packet: Buffer): Buffer | null {
  const content = Buffer.concat([Buffer.from(XMP_LABEL, "latin1"), packet]);
  if (content.length > MOST_IN_SEGMENT) return null;
  const head = Buffer.from([0xff, 0xd8, 0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(content.length + 2, 4);
  return Buffer.concat([head, content, Buffer.from([0xff, 0xd9])]);
}

const LABEL = "Exif\0\0";
export const withoutLabel = (block: Buffer) => (block.toString("latin1", 0, LABEL.length) === LABEL ? block.subarray(LABEL.length) : block);
