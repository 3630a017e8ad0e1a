import { access, constants, stat } from "node:fs/promises";
import { guessMethod } from "#domain/capture/guess-method.ts";
import type { Method } from "#domain/capture/method.ts";
import type { Picture } from "#domain/measure/picture.ts";
import type { MeasureContext } from "#domain/measure/reading.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import { imageSize, sheetSize } from "#domain/print/dimensions.ts";
import { decodeReadable, readJpegHeader } from "../images/decode.ts";
import { hashFile } from "../intake/hash-file.ts";
import { inspect } from "../intake/inspect.ts";
import { readFileClaims } from "../intake/read-file-claims.ts";
import { unreadFile } from "./unread-file.ts";

/** What is said of the print that files show, where they lie in no collection. */
export type SaidOfPrint = {
  readonly formatId: string | null;
  /** measured with a ruler; wins over the format's nominal size */
  readonly sheetMm: { readonly widthMm: number; readonly heightMm: number } | null;
  readonly method: Method | null;
};

export type PlainFile = {
  readonly file: string;
  readonly sha256: string;
  readonly method: Method | null;
  /** as the file says; null where it does not */
  readonly capturedAt: string | null;
  readonly picture: Picture;
  readonly context: MeasureContext;
};

/** Decodes a file outside any collection, once, for measuring. Refused in words when it cannot be read. */
export async function readPlainFile(file: string, said: SaidOfPrint): Promise<Outcome<PlainFile>> {
  const unread = await whyUnread(file);
  if (unread) return refused(unread);
  const inspected = await inspect(file, file, decodeReadable);
  if (!inspected.ok) return inspected;
  const { facts, hints, picture } = inspected.value;
  const size = {
    formatId: said.formatId,
    sheetWidthMm: said.sheetMm?.widthMm ?? null,
    sheetHeightMm: said.sheetMm?.heightMm ?? null,
    imageWidthMm: null,
    imageHeightMm: null,
    orientation: null,
  };
  const sheet = sheetSize(size);
  const image = imageSize(size);
  return done({
    file,
    sha256: await hashFile(file),
    method: said.method ?? guessMethod(hints, facts.kind, facts.claimedPpiX),
    capturedAt: facts.capturedAt ?? null,
    picture,
    context: {
      sheetWidthMm: sheet?.widthMm ?? null,
      sheetHeightMm: sheet?.heightMm ?? null,
      sheetToleranceMm: sheet?.toleranceMm ?? null,
      imageWidthMm: image?.widthMm ?? null,
      imageHeightMm: image?.heightMm ?? null,
      claimedPpiX: facts.claimedPpiX,
      claimedPpiY: facts.claimedPpiY,
      fileKind: facts.kind,
      bitsPerChannel: facts.bitsPerChannel,
      jpegHeader: facts.kind === "jpeg" ? await readJpegHeader(file) : null,
      fileClaims: await readFileClaims(file, facts.kind, facts),
      profileName: facts.profileName,
    },
  });
}

/** Null where it is a file that may be read. */
async function whyUnread(file: string): Promise<Refusal | null> {
  try {
    const found = await stat(file);
    if (found.isDirectory()) return { about: file, happened: "It is a folder.", remedy: "Name a file in it." };
    // a pipe would be waited for without end
    if (!found.isFile()) return { about: file, happened: "It is no ordinary file.", remedy: "Name a picture's file." };
    if (found.size === 0) return { about: file, happened: "The file is empty.", remedy: "Copy it again from where it came from." };
    await access(file, constants.R_OK);
    return null;
  } catch (error) {
    return unreadFile(file, error);
  }
}
