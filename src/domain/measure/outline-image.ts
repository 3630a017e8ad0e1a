import { homographyFromMm, project } from "./homography.ts";
import type { Quad } from "./picture.ts";
import { confirmRectangle, type Rectangle } from "./rectangle.ts";
import type { ReducedCopy } from "./reduced-copy.ts";
import { median, robustSpread } from "./robust.ts";

/** The sheet straightened to a grid of so many cells a side. */
const CELLS = 150;
/** Where the border is plain for certain, and where a border must have ended: shares of the sheet. */
const PLAIN_FROM = 0.014;
const PLAIN_TO = 0.026;
const DEEPEST = 0.42;
/** A line belongs to the picture when this share of it is no longer border. */
const SHARES = [0.5, 0.3, 0.15] as const;

/**
 * The picture inside a sheet, looked for from the sheet's sides inwards: on each side the first line that is no longer
 * of the border's colour. It finds a pale picture that hangs together with its border, where patches fail. Null when
 * the sheet has no plain border, or the lines found are no edges.
 */
export function findImageInwards(copy: ReducedCopy, sheet: Quad): Rectangle | null {
  const unlike = unlikeBorder(copy, sheet);
  if (!unlike) return null;
  const toCopy = homographyFromMm(1, 1, sheet);
  for (const share of SHARES) {
    const [top, right, bottom, left] = [0, 1, 2, 3].map((side) => depthOf(unlike, side, share)) as [number, number, number, number];
    if ([top, right, bottom, left].includes(Number.NaN)) continue;
    const image = confirmRectangle(copy, {
      topLeft: project(toCopy, left, top),
      topRight: project(toCopy, 1 - right, top),
      bottomRight: project(toCopy, 1 - right, 1 - bottom),
      bottomLeft: project(toCopy, left, 1 - bottom),
    });
    if (image && !Object.values(image.sides).includes("frame")) return image;
  }
  return null;
}

/** For each cell, row by row, 1 when its colour is not the border's; null when the border is not plain. */
function unlikeBorder(copy: ReducedCopy, sheet: Quad): Uint8Array | null {
  const toCopy = homographyFromMm(1, 1, sheet);
  const channels = [copy.lightness, copy.a, copy.b].map((plane) =>
    Float32Array.from({ length: CELLS * CELLS }, (_, cell) => {
      const at = project(toCopy, ((cell % CELLS) + 0.5) / CELLS, (Math.floor(cell / CELLS) + 0.5) / CELLS);
      const x = Math.min(copy.widthPx - 1, Math.max(0, Math.round(at.x)));
      const y = Math.min(copy.heightPx - 1, Math.max(0, Math.round(at.y)));
      return plane[y * copy.widthPx + x] as number;
    }),
  );
  const border = Int32Array.from({ length: CELLS * CELLS }, (_, cell) => cell).filter((cell) => {
    const near = Math.min(cell % CELLS, Math.floor(cell / CELLS), CELLS - 1 - (cell % CELLS), CELLS - 1 - Math.floor(cell / CELLS)) / CELLS;
    return near >= PLAIN_FROM && near <= PLAIN_TO;
  });
  const colour = channels.map((channel) => median(Float32Array.from(border, (cell) => channel[cell] as number)));
  const distances = Float32Array.from({ length: CELLS * CELLS }, (_, cell) =>
    Math.hypot(...channels.map((channel, k) => (channel[cell] as number) - (colour[k] as number))),
  );
  const ofBorder = Float32Array.from(border, (cell) => distances[cell] as number);
  const middle = median(ofBorder);
  if (middle > 6) return null;
  const limit = Math.max(2, middle + 3.5 * robustSpread(ofBorder, middle));
  return Uint8Array.from(distances, (distance) => (distance > limit ? 1 : 0));
}

/** Share of the sheet from a side (0 top, 1 right, 2 bottom, 3 left) to the first of two picture lines; NaN when there is none. */
function depthOf(unlike: Uint8Array, side: number, share: number): number {
  const margin = Math.floor(CELLS * 0.15);
  let run = 0;
  for (let depth = Math.ceil(PLAIN_FROM * CELLS); depth < DEEPEST * CELLS; depth++) {
    const line = side === 0 || side === 3 ? depth : CELLS - 1 - depth;
    let count = 0;
    for (let along = margin; along < CELLS - margin; along++)
      count += unlike[side % 2 === 0 ? line * CELLS + along : along * CELLS + line] as number;
    run = count > share * (CELLS - 2 * margin) ? run + 1 : 0;
    if (run === 2) return (depth - 1) / CELLS;
  }
  return Number.NaN;
}
