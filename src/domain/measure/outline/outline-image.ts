import { homographyFromMm, project } from "../homography.ts";
import type { Quad } from "../picture.ts";
import { confirmRectangle, type Rectangle } from "./rectangle.ts";
import type { ReducedCopy } from "./reduced-copy.ts";
import { type Unlike, unlikeStrip } from "./straightened.ts";

/** The sheet is straightened to so many cells a side. */
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
  const toCopy = homographyFromMm(1, 1, sheet);
  const unlike = unlikeStrip(copy, toCopy, CELLS, (u, v) => {
    const near = Math.min(u, v, 1 - u, 1 - v);
    return near >= PLAIN_FROM && near <= PLAIN_TO;
  });
  if (!unlike) return null;
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

/** Share of the sheet from a side (0 top, 1 right, 2 bottom, 3 left) to the first of two picture lines; NaN when there is none. */
function depthOf(unlike: Unlike, side: number, share: number): number {
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
