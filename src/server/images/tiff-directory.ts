import type { FileHandle } from "node:fs/promises";
import { bytesAt } from "./bytes-at.ts";

/** Whole-number tags of the first directory of a TIFF and of the directories below it (tag 330). */
export type TiffDirectory = ReadonlyMap<number, readonly number[]>;

const MOST_ENTRIES = 512;
const MOST_DIRECTORIES = 8;
const MOST_VALUES = 16;
const SUB_DIRECTORIES = 330;
const SIZE_OF: Readonly<Record<number, number>> = { 1: 1, 3: 2, 4: 4, 13: 4 };

/**
 * Reads just enough of a TIFF to tell what kind it is (TIFF 6.0, section 2). Bounded, since the file
 * is a stranger's; whatever cannot be read is left out.
 */
export async function readTiffDirectories(file: FileHandle): Promise<TiffDirectory[]> {
  const head = await bytesAt(file, 0, 8);
  const order = head?.toString("latin1", 0, 2);
  if (!head || (order !== "II" && order !== "MM")) return [];
  const littleEndian = order === "II";
  const first = await readDirectory(file, u32(head, 4, littleEndian), littleEndian);
  if (!first) return [];
  const below = (first.get(SUB_DIRECTORIES) ?? []).slice(0, MOST_DIRECTORIES);
  const others = await Promise.all(below.map((at) => readDirectory(file, at, littleEndian)));
  return [first, ...others.filter((directory) => directory !== null)];
}

async function readDirectory(file: FileHandle, at: number, littleEndian: boolean): Promise<TiffDirectory | null> {
  const counted = await bytesAt(file, at, 2);
  if (!counted) return null;
  const entries = Math.min(MOST_ENTRIES, u16(counted, 0, littleEndian));
  const body = await bytesAt(file, at + 2, entries * 12);
  if (!body) return null;
  const directory = new Map<number, readonly number[]>();
  for (let entry = 0; entry < entries; entry++) {
    const values = await valuesOf(file, body.subarray(entry * 12, entry * 12 + 12), littleEndian);
    if (values) directory.set(u16(body, entry * 12, littleEndian), values);
  }
  return directory;
}

async function valuesOf(file: FileHandle, entry: Buffer, littleEndian: boolean): Promise<number[] | null> {
  const size = SIZE_OF[u16(entry, 2, littleEndian)];
  const count = Math.min(MOST_VALUES, u32(entry, 4, littleEndian));
  if (size === undefined) return null;
  const within = size * count <= 4;
  const held = within ? entry.subarray(8, 8 + size * count) : await bytesAt(file, u32(entry, 8, littleEndian), size * count);
  if (!held) return null;
  return Array.from({ length: count }, (_, index) => {
    if (size === 1) return held.readUInt8(index);
    return size === 2 ? u16(held, index * 2, littleEndian) : u32(held, index * 4, littleEndian);
  });
}

const u16 = (bytes: Buffer, at: number, littleEndian: boolean) => (littleEndian ? bytes.readUInt16LE(at) : bytes.readUInt16BE(at));
const u32 = (bytes: Buffer, at: number, littleEndian: boolean) => (littleEndian ? bytes.readUInt32LE(at) : bytes.readUInt32BE(at));
