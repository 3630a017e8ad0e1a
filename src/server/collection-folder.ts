import { mkdirSync } from "node:fs";
import path from "node:path";
import type { Side } from "#domain/capture/capture.ts";

/** Where a collection's files live. Names inside are made by the program alone: hashes and numbers. */
export type CollectionFolder = {
  readonly root: string;
  readonly database: string;
  /** originals, named by their SHA-256; never changed after intake */
  readonly captures: string;
  /** half-written files; anything here at start is a leftover of a crash */
  readonly incoming: string;
  /** can be thrown away and made again */
  readonly derived: string;
  readonly exports: string;
  readonly backups: string;
};

export function openFolder(directory: string): CollectionFolder {
  const root = path.resolve(directory);
  const folder = {
    root,
    database: path.join(root, "solander.db"),
    captures: path.join(root, "captures"),
    incoming: path.join(root, "captures", "incoming"),
    derived: path.join(root, "derived"),
    exports: path.join(root, "exports"),
    backups: path.join(root, "backups"),
  };
  for (const each of [folder.captures, folder.incoming, folder.derived, folder.exports, folder.backups])
    mkdirSync(each, { recursive: true });
  return folder;
}

const SHA256 = /^[0-9a-f]{64}$/;

/** Path of an original. Throws on anything but a SHA-256, so that no stranger's text becomes a path. */
export function originalPath(folder: CollectionFolder, sha256: string): string {
  if (!SHA256.test(sha256)) throw new Error(`not a SHA-256: ${sha256.slice(0, 80)}`);
  return path.join(folder.captures, sha256.slice(0, 2), sha256);
}

/** Path of something made from two captures held against each other. */
export function changePath(
  folder: CollectionFolder,
  { olderId, newerId }: { readonly olderId: number; readonly newerId: number },
  name: "change.json" | "older.jpg" | "newer.jpg",
): string {
  if (![olderId, newerId].every((id) => Number.isSafeInteger(id) && id > 0)) throw new Error(`not capture ids: ${olderId}, ${newerId}`);
  return path.join(folder.derived, `${olderId}-to-${newerId}-${name}`);
}

/** Path of a small picture of an original that is no capture. */
export function derivedOriginalPath(folder: CollectionFolder, originalId: number, name: "thumbnail.jpg" | "view.jpg"): string {
  if (!Number.isSafeInteger(originalId) || originalId < 1) throw new Error(`not an original's id: ${originalId}`);
  return path.join(folder.derived, `original-${originalId}-${name}`);
}

/** Path of something made from a capture, e.g. its thumbnail. */
export function derivedPath(
  folder: CollectionFolder,
  captureId: number,
  name: "thumbnail.jpg" | "view.jpg" | "grid.bin" | "frame.bin" | "areas.json" | "areas-together.json",
): string {
  if (!Number.isSafeInteger(captureId) || captureId < 1) throw new Error(`not a capture id: ${captureId}`);
  return path.join(folder.derived, `${captureId}-${name}`);
}

/** Folder of a side's captures laid on each other, named by what they rest on. */
export function laidFolder(folder: CollectionFolder, side: { readonly printId: number; readonly side: Side }, basis: string): string {
  if (!Number.isSafeInteger(side.printId) || side.printId < 1) throw new Error(`not a print id: ${side.printId}`);
  if (!LAID_BASIS.test(basis)) throw new Error("not the basis of a laid side");
  return path.join(folder.derived, "laid", `${side.printId}-${side.side}-${basis}`);
}

const LAID_BASIS = /^[0-9a-f]{32}$/;
