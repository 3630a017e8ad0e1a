import { homographyFromMm, project } from "../homography.ts";
import type { Quad } from "../picture.ts";
import { confirmRectangle, type Rectangle } from "./rectangle.ts";
import type { ReducedCopy } from "./reduced-copy.ts";
import { type Unlike, unlikeStrip } from "./straightened.ts";

const CELLS = 300;
/** The cells cover the picture and so much of its size on each side of it. */
const AROUND = 0.5;
const SPAN = 1 + 2 * AROUND;
/** The border next to the picture, as shares of the picture: past its blur, within the thinnest border. */
const BORDER_FROM = 0.012;
const BORDER_TO = 0.03;
/** A line is beyond the sheet when this share of it is not of the border's colour. */
const SHARE = 0.4;

/**
 * The sheet around a picture, looked for from the picture's sides outwards: on each side the last line of the border's
 * colour. On a patterned ground this tells the sheet from lines of the pattern. Null where the picture has no plain
 * border, or where the lines found are no edges.
 */
export function findSheetOutwards(copy: ReducedCopy, image: Quad): Rectangle | null {
  const toCopy = homographyFromMm(1, 1, image);
  const onImage = (cellUnit: number) => cellUnit * SPAN - AROUND;
  const corner = (u: number, v: number) => project(toCopy, onImage(u), onImage(v));
  const cells = homographyFromMm(1, 1, {
    topLeft: corner(0, 0),
    topRight: corner(1, 0),
    bottomRight: corner(1, 1),
    bottomLeft: corner(0, 1),
  });
  const unlike = unlikeStrip(copy, cells, CELLS, (u, v) => {
    const [x, y] = [onImage(u), onImage(v)];
    const beyond = Math.max(-x, x - 1, -y, y - 1);
    return beyond >= BORDER_FROM && beyond <= BORDER_TO;
  });
  if (!unlike) return null;
  const [top, right, bottom, left] = [0, 1, 2, 3].map((side) => borderOf(unlike, side)) as [number, number, number, number];
  if ([top, right, bottom, left].includes(Number.NaN)) return null;
  return confirmRectangle(copy, {
    topLeft: project(toCopy, -left, -top),
    topRight: project(toCopy, 1 + right, -top),
    bottomRight: project(toCopy, 1 + right, 1 + bottom),
    bottomLeft: project(toCopy, -left, 1 + bottom),
  });
}

/** Width of the border on a side (0 top, 1 right, 2 bottom, 3 left), as a share of the picture; NaN when it does not end. */
function borderOf(unlike: Unlike, side: number): number {
  const first = Math.round((AROUND / SPAN) * CELLS);
  const from = first + Math.floor(0.06 * (CELLS - 2 * first));
  const until = CELLS - from;
  for (let depth = Math.ceil((BORDER_FROM / SPAN) * CELLS); depth < first; depth++) {
    const line = side === 0 || side === 3 ? first - depth : CELLS - 1 - first + depth;
    let count = 0;
    for (let along = from; along < until; along++) count += unlike[side % 2 === 0 ? line * CELLS + along : along * CELLS + line] as number;
    if (count > SHARE * (until - from)) return (depth * SPAN) / CELLS;
  }
  return Number.NaN;
}
