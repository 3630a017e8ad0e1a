import type { FileHandle } from "node:fs/promises";

/** So many bytes of a file from a place on; null where the file ends before. */
export async function bytesAt(file: FileHandle, at: number, length: number): Promise<Buffer | null> {
  const buffer = Buffer.alloc(length);
  const { bytesRead } = await file.read(buffer, 0, length, at);
  return bytesRead === length ? buffer : null;
}
