import { readFile, rename, writeFile } from "node:fs/promises";
import { gridPlaneOf, type PrintGrid } from "#domain/measure/laying/print-grid.ts";
import type { View } from "#domain/measure/likeness/likeness-views.ts";
import { cornersOf } from "#domain/measure/lines.ts";
import type { Quad } from "#domain/measure/picture.ts";
import type { GridPlane } from "#domain/measure/planes/grid-plane.ts";
import { type CollectionFolder, derivedPath } from "../collection-folder.ts";

/**
 * Width, height, px per mm, then x and y of the quad's corners in the frame, clockwise from the top left, then the same of the sheet, its
 * blur, and the share of it that the grid shows; NaN where unknown.
 */
const HEADER_BYTES = 8 * 21;
/** Of files from before that share was kept, and from before the sheet and its blur were. */
const EARLIER_HEADER_BYTES = [8 * 20, 8 * 11] as const;
const SHORTEST_HEADER_BYTES = Math.min(...EARLIER_HEADER_BYTES);

const UNKNOWN_CORNERS = new Array(4).fill({ x: Number.NaN, y: Number.NaN });

/** Keeps a capture's straightened grid among the derived files, for comparing with later captures. */
export const writeGrid = (folder: CollectionFolder, captureId: number, grid: PrintGrid): Promise<void> =>
  writeTo(derivedPath(folder, captureId, "grid.bin"), grid);

/** Keeps a capture's whole frame, small, for knowing it again where what was found in it may not be the print. */
export const writeFrame = (folder: CollectionFolder, captureId: number, { width, height, data }: GridPlane): Promise<void> =>
  writeTo(derivedPath(folder, captureId, "frame.bin"), { widthPx: width, heightPx: height, pxPerMm: null, data });

async function writeTo(target: string, grid: PrintGrid): Promise<void> {
  const header = Buffer.alloc(HEADER_BYTES);
  const corners = (quad: Quad | undefined) => (quad ? cornersOf(quad) : UNKNOWN_CORNERS).flatMap(({ x, y }) => [x, y]);
  const figures = [
    grid.widthPx,
    grid.heightPx,
    grid.pxPerMm ?? Number.NaN,
    ...corners(grid.quad),
    ...corners(grid.blur?.sheet),
    grid.blur?.varianceMm2 ?? Number.NaN,
    grid.shareOfSheet ?? Number.NaN,
  ];
  for (const [index, figure] of figures.entries()) header.writeDoubleLE(figure, 8 * index);
  const halfMade = `${target}.${crypto.randomUUID()}`;
  await writeFile(halfMade, Buffer.concat([header, Buffer.from(grid.data.buffer, grid.data.byteOffset, grid.data.byteLength)]));
  await rename(halfMade, target);
}

/** Null where the capture has no grid, e.g. because no print was found in it. */
export const readGrid = (folder: CollectionFolder, captureId: number): Promise<PrintGrid | null> =>
  readFrom(derivedPath(folder, captureId, "grid.bin"));

/** What `view` of a capture shows, as it was kept; null where it has none. */
export async function readPlane(folder: CollectionFolder, captureId: number, view: View): Promise<GridPlane | null> {
  const grid = await readFrom(derivedPath(folder, captureId, view === "print" ? "grid.bin" : "frame.bin"));
  return grid && gridPlaneOf(grid);
}

async function readFrom(file: string): Promise<PrintGrid | null> {
  const bytes = await readFile(file).catch(() => null);
  if (!bytes || bytes.length < SHORTEST_HEADER_BYTES) return null;
  const written = (index: number) => bytes.readDoubleLE(8 * index);
  const [widthPx, heightPx, pxPerMm] = [written(0), written(1), written(2)];
  const headerBytes = bytes.length - widthPx * heightPx * 4;
  if (![HEADER_BYTES, ...EARLIER_HEADER_BYTES].includes(headerBytes)) return null;
  const figure = (index: number) => (8 * index < headerBytes ? written(index) : Number.NaN);
  const data = new Float32Array(new Uint8Array(bytes.subarray(headerBytes)).buffer);
  const quadAt = (first: number): Quad | null => {
    const corner = (index: number) => ({ x: figure(first + 2 * index), y: figure(first + 1 + 2 * index) });
    return Number.isNaN(figure(first)) ? null : { topLeft: corner(0), topRight: corner(1), bottomRight: corner(2), bottomLeft: corner(3) };
  };
  const [quad, sheet, shareOfSheet] = [quadAt(3), quadAt(11), figure(20)];
  return {
    widthPx,
    heightPx,
    pxPerMm: Number.isNaN(pxPerMm) ? null : pxPerMm,
    data,
    ...(quad && { quad }),
    ...(sheet && { blur: { sheet, varianceMm2: Number.isNaN(figure(19)) ? null : figure(19) } }),
    ...(!Number.isNaN(shareOfSheet) && { shareOfSheet }),
  };
}
