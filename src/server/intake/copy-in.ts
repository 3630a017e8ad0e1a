import { createHash, randomUUID } from "node:crypto";
import { type FileHandle, mkdir, open, rename, rm, stat } from "node:fs/promises";
import path from "node:path";
import type { Readable } from "node:stream";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import { type CollectionFolder, originalPath } from "../collection-folder.ts";

/** A 16-bit scan of 28 × 36 cm at 1,200 ppi, uncompressed, fits. */
export const MOST_BYTES = 2_000_000_000;

export type CopiedIn = { readonly path: string; readonly sha256: string; readonly bytes: number };

/**
 * Streams a file into the collection under a passing name, hashing as it goes, and has the disk
 * confirm it. The name carries this process's number, so that a later start can tell a leftover.
 */
export async function copyIn(folder: CollectionFolder, source: Readable, name: string, mostBytes = MOST_BYTES): Promise<Outcome<CopiedIn>> {
  const target = path.join(folder.incoming, `${process.pid}-${randomUUID()}`);
  try {
    const file = await open(target, "wx");
    const copied = await copy(source, file, mostBytes).finally(() => file.close());
    if (copied.bytes > 0 && copied.bytes <= mostBytes) return done({ path: target, ...copied });
    await rm(target, { force: true });
    return refused(copied.bytes === 0 ? EMPTY(name) : tooLarge(name, mostBytes));
  } catch (error) {
    await rm(target, { force: true });
    const refusal = refusalOf(error, name);
    if (refusal) return refused(refusal);
    throw error;
  }
}

/**
 * Gives a copied file its lasting name. After this the disk holds it whole, or not at all. Where a
 * later step fails, the file stays without a record: nothing here ever deletes an original, because the
 * records may be older than the files (a restored backup). The same bytes, added again, take its place.
 */
export async function keep(folder: CollectionFolder, copied: CopiedIn, name: string): Promise<Outcome<null>> {
  const target = originalPath(folder, copied.sha256);
  try {
    await mkdir(path.dirname(target), { recursive: true });
    await rename(copied.path, target);
    await syncFolder(path.dirname(target));
    await syncFolder(folder.captures);
    return done(null);
  } catch (error) {
    const refusal = refusalOf(error, name);
    if (refusal) return refused(refusal);
    throw error;
  }
}

/**
 * The last part of whatever path a browser or a disk gave, on one line; only ever shown, never a path of ours. Marks that turn the direction
 * of writing are left out: they make a name look as if it ended otherwise (Unicode Technical Report 36 on bidirectional text).
 */
export const plainName = (name: string) =>
  (name.split(/[\\/]/).at(-1) ?? "")
    .replaceAll(/\p{Cc}+/gu, " ")
    .replaceAll(/[\u202a-\u202e\u2066-\u2069]/g, "")
    .trim()
    .slice(0, 200) || "file without a name";

/** How many bytes are kept under a hash; null when there is no such file. */
export const keptBytes = (folder: CollectionFolder, sha256: string): Promise<number | null> =>
  stat(originalPath(folder, sha256)).then(
    ({ size }) => size,
    () => null,
  );

async function copy(source: Readable, file: FileHandle, mostBytes: number): Promise<{ sha256: string; bytes: number }> {
  const hash = createHash("sha256");
  let bytes = 0;
  for await (const chunk of source) {
    const piece = chunk as Buffer;
    bytes += piece.length;
    if (bytes > mostBytes) break;
    hash.update(piece);
    await file.writeFile(piece);
  }
  await file.sync();
  return { sha256: hash.digest("hex"), bytes };
}

async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, "r");
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** What a broken copy is told as; null for a defect. */
function refusalOf(error: unknown, about: string): Refusal | null {
  const code = (error as NodeJS.ErrnoException).code ?? "";
  if (code === "ENOSPC" || code === "EDQUOT")
    return {
      about,
      happened: "The disk is full; nothing of this file was kept.",
      remedy: "Make room on the disk, then add the file again.",
    };
  if (["EACCES", "EISDIR", "ENOENT", "EIO", "EPERM"].includes(code))
    return {
      about,
      happened: "The file could not be read or copied.",
      remedy: "Check that it is there and that you may read it, then add it again.",
    };
  if (code === "ERR_STREAM_PREMATURE_CLOSE" || (error instanceof Error && /unexpected end|aborted/i.test(error.message)))
    return { about, happened: "The file broke off before its end; nothing of it was kept.", remedy: "Add the file again." };
  return null;
}

const EMPTY = (about: string): Refusal => ({
  about,
  happened: "The file is empty.",
  remedy: "Copy it again from where it came from, then add the new copy.",
});

const tooLarge = (about: string, mostBytes: number): Refusal => ({
  about,
  happened: `The file is larger than ${Math.round(mostBytes / 1e6).toLocaleString("en")} MB, the most that is taken in.`,
  remedy: "Save it as a compressed TIFF (LZW or Deflate), or scan it in parts.",
});
