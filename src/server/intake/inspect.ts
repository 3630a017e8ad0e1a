import { open } from "node:fs/promises";
import type { Metadata } from "sharp";
import type { OriginalKind } from "#domain/capture/capture.ts";
import type { MethodHints } from "#domain/capture/settings.ts";
import type { Picture } from "#domain/measure/picture.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import type { NewOriginal } from "#drizzle/queries/captures.ts";
import { kindOfFile } from "../images/kind-of-file.ts";
import { READING, sharp } from "../images/policy.ts";
import { profileName } from "../images/profile.ts";
import { type Readable, readable } from "../images/readable.ts";
import { readTiffDirectories, type TiffDirectory } from "../images/tiff-directory.ts";
import { UnreadableImage } from "../images/unreadable-image.ts";
import { fileResolution } from "./file-resolution.ts";
import { readSettings } from "./read-settings.ts";

export type Inspected<T> = {
  readonly facts: Omit<NewOriginal, "sha256" | "bytes" | "originalName">;
  readonly hints: MethodHints;
  /** what reading it to its end brought */
  readonly picture: T;
};

type Size = Pick<Picture, "widthPx" | "heightPx">;

/**
 * Looks at a file before it is kept or measured: what kind it is by its bytes, whether it decodes to its
 * end, and what it says of itself. A file that fails is refused in words.
 * @param read decodes it to its end, for its size alone or for the whole picture
 */
export async function inspect<T extends Size>(
  file: string,
  name: string,
  read: (input: Readable) => Promise<T>,
): Promise<Outcome<Inspected<T>>> {
  const told = await kindOfFile(file);
  if (told.kind === null) return refused(unknownKind(name, told.other));
  try {
    return done(await inspectKind(file, told.kind, read));
  } catch (error) {
    if (error instanceof UnreadableImage) return refused({ about: name, happened: `The file ${error.trouble}`, remedy: error.remedy });
    throw error;
  }
}

async function inspectKind<T extends Size>(file: string, kind: OriginalKind, read: (input: Readable) => Promise<T>): Promise<Inspected<T>> {
  const input = await readable(file, kind);
  const metadata = await sharp(input, READING).metadata();
  if (metadata.depth !== "uchar" && metadata.depth !== "ushort") throw notWholeNumbers();
  const picture = await read(input);
  const own = kind === "heic" ? await sharp(file, READING).metadata() : metadata;
  const { settings, hints, ppiFromXmp, metadataState, metadataNote } = await readSettings(file, kind, own);
  const claimed = settings.claimedPpiX === null ? ((await fileResolution(file, kind)) ?? ppiFromXmp) : null;
  return {
    facts: {
      ...settings,
      claimedPpiX: settings.claimedPpiX ?? claimed?.x ?? null,
      claimedPpiY: settings.claimedPpiY ?? claimed?.y ?? null,
      kind,
      widthPx: picture.widthPx,
      heightPx: picture.heightPx,
      ...(await howStored(file, kind, own)),
      profileName: own.icc ? await profileName(own.icc) : null,
      metadataState,
      metadataNote: [metadataNote, pagesNote(kind, metadata.pages)].filter((note) => note !== null).join(" ") || null,
    },
    hints,
    picture,
  };
}

const BITS_PER_SAMPLE = 258;
const PHOTOMETRIC = 262;
const CIELAB = 8;
const SPACES: Readonly<Record<string, string>> = {
  srgb: "RGB",
  rgb: "RGB",
  rgb16: "RGB",
  "b-w": "grey",
  grey16: "grey",
  cmyk: "CMYK",
  lab: "CIELAB",
};

/** Bits and channels as they lie in the file, which for a TIFF its own directory says best. */
async function howStored(file: string, kind: OriginalKind, metadata: Metadata) {
  const directory = kind === "tiff" ? await firstDirectory(file) : undefined;
  const bits = directory?.get(BITS_PER_SAMPLE);
  const space = directory?.get(PHOTOMETRIC)?.[0] === CIELAB ? "lab" : metadata.space;
  return {
    bitsPerChannel: bits?.[0] ?? metadata.bitsPerSample ?? (metadata.depth === "ushort" ? 16 : 8),
    channels: bits?.length ?? metadata.channels,
    colourSpace: kind === "raw" ? "camera" : (SPACES[space] ?? space),
  };
}

async function firstDirectory(path: string): Promise<TiffDirectory | undefined> {
  const file = await open(path, "r");
  try {
    return (await readTiffDirectories(file))[0];
  } finally {
    await file.close();
  }
}

const pagesNote = (kind: OriginalKind, pages: number | undefined) =>
  kind === "tiff" && pages !== undefined && pages > 1 ? `The file holds ${pages} pictures; the first is the one that is read.` : null;

const notWholeNumbers = () =>
  new UnreadableImage(
    "holds pixels as fractions or as very large numbers, which are not read.",
    "Save it as TIFF with 16 bits per channel.",
  );

const TAKEN = "Taken in are JPEG, PNG, WebP, AVIF, TIFF, HEIC and camera raw (DNG) files.";

const unknownKind = (about: string, other: string | null): Refusal => ({
  about,
  happened: other ? `The file is ${other}, which is not taken in.` : "The file is not a picture, or of a kind that is not known.",
  remedy: `${TAKEN} Save the picture as one of these, best as TIFF, and try again with that.`,
});
