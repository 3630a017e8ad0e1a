import { readFile, rename, writeFile } from "node:fs/promises";
import type { PrintGrid } from "#domain/measure/print-grid.ts";
import { type CollectionFolder, derivedPath } from "../collection-folder.ts";

const HEADER_BYTES = 24;

/** Keeps a capture's straightened grid among the derived files, for comparing with later captures. */
export async function writeGrid(folder: CollectionFolder, captureId: number, grid: PrintGrid): Promise<void> {
  const target = derivedPath(folder, captureId, "grid.bin");
  const header = Buffer.alloc(HEADER_BYTES);
  header.writeDoubleLE(grid.widthPx, 0);
  header.writeDoubleLE(grid.heightPx, 8);
  header.writeDoubleLE(grid.pxPerMm ?? Number.NaN, 16);
  const halfMade = `${target}.${crypto.randomUUID()}`;
  await writeFile(halfMade, Buffer.concat([header, Buffer.from(grid.data.buffer, grid.data.byteOffset, grid.data.byteLength)]));
  await rename(halfMade, target);
}

/** Null where the capture has no grid, e.g. because no print was found in it. */
export async function readGrid(folder: CollectionFolder, captureId: number): Promise<PrintGrid | null> {
  const bytes = await readFile(derivedPath(folder, captureId, "grid.bin")).catch(() => null);
  if (!bytes || bytes.length < HEADER_BYTES) return null;
  const widthPx = bytes.readDoubleLE(0);
  const heightPx = bytes.readDoubleLE(8);
  const pxPerMm = bytes.readDoubleLE(16);
  if (bytes.length !== HEADER_BYTES + widthPx * heightPx * 4) return null;
  const data = new Float32Array(new Uint8Array(bytes.subarray(HEADER_BYTES)).buffer);
  return { widthPx, heightPx, pxPerMm: Number.isNaN(pxPerMm) ? null : pxPerMm, data };
}
